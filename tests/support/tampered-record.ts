/** A record on disk, and the hand that changes it. */
import { join } from 'node:path';
import { linkEntry, readEnvelope } from '../../server/ledger/envelope.ts';
import { noHash } from '../../server/ledger/hash.ts';
import { headBytes } from '../../server/ledger/head-text.ts';
import type { Database } from '../../server/record/database.ts';
import { unpackEntry } from '../../server/record/packed-entry.ts';
import type { Signer } from '../../server/record/signer.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';
import { bench, scanItem, shortJob } from './record.ts';

/** A closed record of two joints, with a document. Its first joint has eight entries: see shortJob. */
export const closedRecord = (leaveUnsealed = false, signer?: Signer): string => {
  const bed = bench(undefined, signer === undefined ? undefined : () => signer);
  bed.store.putDocument(new Uint8Array([1, 2, 3]), 'image/png');
  bed.store.commit(shortJob());
  bed.store.commit(shortJob('joint-2'));
  if (leaveUnsealed) {
    bed.store.close();
    bed.reopen();
    bed.store.commit([scanItem(20), scanItem(21)]);
    return bed.folder;
  }
  bed.store.close();
  return bed.folder;
};

/** As someone would who can write to the file and knows SQL. */
export const tamper = (folder: string, work: (raw: Database) => void): void => {
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
  for (const table of ['entries', 'blocks', 'documents', 'signatures'])
    raw.exec(`DROP TRIGGER IF EXISTS ${table}_stay; DROP TRIGGER IF EXISTS ${table}_last`);
  work(raw);
  raw.close();
};

/**
 * Writes a chain anew from an entry on, with hashes that fit, as one would who knows the format; signed anew where the
 * key is at hand. `change` makes another body of that first entry.
 */
export const rewrite = (
  raw: Database,
  chain: string,
  from: number,
  change: (body: unknown) => unknown,
  signer?: Signer,
): void => {
  const rows = raw.all<{ seq: number; hash: string; bytes: Uint8Array }>(
    'SELECT seq, hash, bytes FROM entries WHERE chain = ? ORDER BY seq',
    chain,
  );
  let previous = noHash;
  for (const { seq, hash, bytes } of rows) {
    if (seq < from) {
      previous = hash;
      continue;
    }
    const envelope = readEnvelope(unpackEntry(bytes));
    const body = seq === from ? change(envelope.body) : envelope.body;
    const linked = linkEntry(previous, { ...envelope, body });
    raw.run(
      'UPDATE entries SET bytes = ?, hash = ? WHERE chain = ? AND seq = ?',
      linked.bytes,
      linked.hash,
      chain,
      seq,
    );
    if (signer !== undefined) {
      const signature = signer.sign(headBytes({ chain, seq, hash: linked.hash }));
      raw.run('UPDATE signatures SET signature = ? WHERE chain = ? AND seq = ?', signature, chain, seq);
    }
    previous = linked.hash;
  }
  raw.run('UPDATE chains SET hash = ? WHERE chain = ?', previous, chain);
};

/** And the station's chain with it, so that it knows the new head of the joint only. */
export const rewriteAll = (
  raw: Database,
  chain: string,
  from: number,
  change: (body: unknown) => unknown,
  signer?: Signer,
): void => {
  rewrite(raw, chain, from, change, signer);
  const head = raw.get<{ chain: string; seq: number; hash: string }>(
    'SELECT chain, seq, hash FROM chains WHERE chain = ?',
    chain,
  )!;
  const noting = raw.get<{ seq: number }>(
    "SELECT max(seq) AS seq FROM entries WHERE chain = 'station' AND kind = 'heads'",
  )!;
  const noted = (body: unknown) => ({
    heads: (body as { heads: { chain: string }[] }).heads.map((each) => (each.chain === chain ? head : each)),
  });
  rewrite(raw, 'station', noting.seq, noted, signer);
};
