/** A signed record of one closed joint, and a package that was made of it. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bytesOf } from '../../server/proof/layout.ts';
import { createKeyPem, signerOfPem } from '../../server/record/ed25519.ts';
import { keyFileOf } from '../../server/record/key-file.ts';
import { openPackage } from '../../server/record/packaged.ts';
import { openRecordReadOnly, type RecordReader } from '../../server/record/read.ts';
import { type Fitting, fitOf, readingsFrom, type Way } from '../../server/record/retaining.ts';
import type { RecordStore } from '../../server/record/store.ts';
import { makePackage } from '../../server/report/package/make.ts';
import { at, type Bench, bench, shortJob, temporaryFolder } from './record.ts';

export interface Archived {
  readonly bed: Bench;
  readonly folder: string;
  readonly signer: ReturnType<typeof signerOfPem>;
  /** Where the package lies, and another one can. */
  readonly path: string;
  pack(chain?: string): Uint8Array;
}

/** Nothing is open afterwards but what the bench opens again. */
export const archived = (items = shortJob(), disk?: Parameters<typeof bench>[0]): Archived => {
  const pem = createKeyPem();
  const signer = signerOfPem(pem);
  const bed = bench(disk, () => signer);
  bed.store.commit(items);
  bed.store.close();
  writeFileSync(keyFileOf(bed.folder), pem, { mode: 0o600 });
  const path = join(temporaryFolder(), 'joint-1.zip');
  const pack = (chain = 'joint-1'): Uint8Array => packed(bed.folder, chain, signer);
  writeFileSync(path, pack());
  return { bed, folder: bed.folder, signer, path, pack };
};

const packed = (folder: string, chain: string, signer: ReturnType<typeof signerOfPem>): Uint8Array =>
  reading(folder, (reader) =>
    makePackage({
      ...{ reader, chain, report: bytesOf('%PDF the report'), format: bytesOf('format'), page: bytesOf('page') },
      ...(reader.removed(chain) === undefined ? { readings: bytesOf('time;A1\n'), passes: bytesOf('pass\n') } : {}),
      seal: signer.sign,
    }),
  );

export const reading = <T>(folder: string, work: (reader: RecordReader) => T): T => {
  const reader = openRecordReadOnly(folder);
  try {
    return work(reader);
  } finally {
    reader.close();
  }
};

export const by = { who: 'Imke Sorel', role: 'coordinator', proof: 'password' } as const;
export const asked = { by, at: at(60_000), reason: 'ten years are over' };

const fitting = (store: RecordReader, bytes: Uint8Array, way: Way, joint?: string): Fitting => {
  const held = opened(bytes);
  const fit = fitOf(store, held, way, joint);
  if ('refused' in fit) throw new Error(fit.refused);
  return fit;
};

export const opened = (bytes: Uint8Array) => {
  const held = openPackage(bytes);
  if ('refused' in held) throw new Error(held.refused);
  return held;
};

export const remove = (store: RecordStore, bytes: Uint8Array): void =>
  store.removeReadings(fitting(store, bytes, 'remove'), asked);
export const putBack = (store: RecordStore, bytes: Uint8Array): void =>
  store.putBackReadings(fitting(store, bytes, 'put back'), readingsFrom(store, opened(bytes)), asked);

/** With its readings removed, and nothing open. */
export const withoutReadings = (): Archived => {
  const made = archived();
  made.bed.reopen();
  remove(made.bed.store, new Uint8Array(readFileSync(made.path)));
  made.bed.store.close();
  return made;
};
