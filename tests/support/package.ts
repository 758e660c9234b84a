/** A package of a short job, made as a station makes it, and the hand that changes what is in one. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { linkEntry, readEnvelope } from '../../server/ledger/envelope.ts';
import { noHash, sha256Hex } from '../../server/ledger/hash.ts';
import { headBytes, headText } from '../../server/ledger/head-text.ts';
import { stampBody } from '../../server/ledger/stamp-entry.ts';
import { bytesOf, type Files, file, joinLines, signatureLine, splitLines, sumsOf } from '../../server/proof/layout.ts';
import { unzipped, zipped } from '../../server/proof/zip.ts';
import { createKeyPem, signerOfPem } from '../../server/record/ed25519.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import type { Signer } from '../../server/record/signer.ts';
import { requestFor } from '../../server/record/stamping.ts';
import { openRecord } from '../../server/record/store.ts';
import { makePackage } from '../../server/report/package/make.ts';
import { readRequest } from '../../server/stamp/request.ts';
import { act, at, note, shortJob } from './record.ts';
import { stampFor } from './stamps/authority.ts';

export const stationKey = signerOfPem(createKeyPem());
export const strangersKey = signerOfPem(createKeyPem());
export const photo = new Uint8Array([137, 80, 78, 71, 1, 2, 3]);

/** Answers what a test wants to hear, so that a table of many packages costs nothing. */
export const answeringRules = (verdict: string): string =>
  `var rules = { judge: (text) => JSON.stringify({ verdict: JSON.parse(text).length > 3 ? '${verdict}' : 'few' }) };`;

export interface Made {
  readonly signer?: Signer;
  readonly rules?: string;
  readonly chain?: string;
  readonly page?: Uint8Array;
  readonly wind?: string;
  /** A time stamp of the ninth entry, in a tenth. */
  readonly stamped?: boolean;
}

/** Nine entries: opened, scans, heat, scans, note, photo, scan, close, verdict. */
export const packageOf = ({
  signer,
  rules = answeringRules('cannot-be-judged'),
  chain = 'joint-1',
  page,
  wind,
  stamped,
}: Made = {}): Uint8Array => {
  const home = mkdtempSync(join(tmpdir(), 'package-'));
  const folder = join(home, 'station');
  const script = bytesOf(rules);
  const record = openRecord({
    ...{ folder, begin: true, program: 'test 1', now: () => at(0) },
    rules: { sha256: sha256Hex(script), bytes: script },
    ...(signer === undefined ? {} : { signer: () => signer }),
  });
  const sha256 = record.putDocument(photo, 'image/png');
  const job = shortJob(chain).map((item) =>
    item.type === 'entry' && item.kind === 'note' ? note(9, wind ?? 'wind from the door', chain) : item,
  );
  const attach = act(
    9,
    { kind: 'attach', title: 'groove', mediaType: 'image/png', bytes: photo.length, sha256 },
    chain,
  );
  const place = job.findIndex((item) => item.type === 'entry' && item.kind === 'note') + 1;
  record.commit([...job.slice(0, place), attach, ...job.slice(place)]);
  if (stamped === true) {
    const { head, request } = requestFor(record, chain)!;
    record.keepStamp(chain, stampBody(headText(head), stampFor(request), readRequest(request).nonce));
  }
  record.close();
  const reader = openRecordReadOnly(folder);
  try {
    return makePackage({
      ...{
        reader,
        chain,
        report: bytesOf('%PDF the report'),
        readings: bytesOf('time;A1\n'),
        passes: bytesOf('pass\n'),
        format: bytesOf('format'),
      },
      page: page ?? bytesOf('page'),
      ...(signer === undefined ? {} : { seal: signer.sign }),
    });
  } finally {
    reader.close();
    rmSync(home, { recursive: true, force: true });
  }
};

export const filesOf = (bytes: Uint8Array): Record<string, Uint8Array> => {
  const unpacked = unzipped(bytes);
  if ('refused' in unpacked) throw new Error(unpacked.refused);
  return { ...unpacked.files };
};

/** With sums that fit, as one makes them who has read the text; sealed anew where the key is at hand. */
export const listedAnew = (files: Files, signer?: Signer): Files => {
  const { [file.sums]: _, [file.sumsSignature]: seal, ...rest } = files;
  const sums = sumsOf(rest);
  const sealed = signer === undefined ? seal : signer.sign(sums);
  return { ...rest, [file.sums]: sums, ...(sealed === undefined ? {} : { [file.sumsSignature]: sealed }) };
};

export const withLines = (
  files: Files,
  change: (lines: Uint8Array[]) => Uint8Array[],
  name: string = file.entries,
): Files => ({
  ...files,
  [name]: joinLines(change(splitLines(files[name]!).map((line) => Uint8Array.from(line)))),
});

/** Entries from `from` on with hashes that fit, and with head; signed anew where a key is at hand. */
export const rechained = (files: Files, from: number, change: (body: unknown) => unknown, signer?: Signer): Files => {
  let previous = noHash;
  let seq = 0;
  const signatures: Uint8Array[] = [];
  let chain = '';
  const made = withLines(files, (lines) =>
    lines.map((line) => {
      seq += 1;
      const envelope = readEnvelope(line);
      chain = envelope.chain;
      const body = seq === from ? change(envelope.body) : envelope.body;
      const linked =
        seq < from ? { bytes: line, hash: sha256Hex(line) } : linkEntry(previous, { ...envelope, seq, body });
      previous = linked.hash;
      if (signer !== undefined)
        signatures.push(
          signatureLine(seq, { key: 1, signature: signer.sign(headBytes({ chain, seq, hash: previous })) }),
        );
      return linked.bytes;
    }),
  );
  const head = { chain, seq, hash: previous };
  return {
    ...made,
    [file.head]: bytesOf(headText(head)),
    ...(signer === undefined
      ? {}
      : { [file.signatures]: joinLines(signatures), [file.headSignature]: signer.sign(headBytes(head)) }),
  };
};

export const packed = (files: Files): Uint8Array => zipped(files);
