/** The time stamps that a chain keeps, looked at by someone who believes nothing of them. */
import { readEnvelope } from '../ledger/envelope.ts';
import { stampKind, stampNamedBy } from '../ledger/stamp-entry.ts';
import { inspectStamps, type SeenStamp, type Standing } from '../proof/stamps.ts';
import { mathematics } from './certificate-signature.ts';
import type { Database } from './database.ts';
import { unpackEntry } from './packed-entry.ts';

/** In the order in which they were kept. Whom to trust is left to the reader. */
export const keptStamps = (database: Database, chain: string): readonly SeenStamp[] => {
  const rows = database.all<{ bytes: Uint8Array }>(
    "SELECT bytes FROM entries WHERE chain = ? AND class = 'block' AND kind = ? ORDER BY seq",
    chain,
    stampKind,
  );
  const entries = rows.flatMap(({ bytes }) => stampNamedBy(readEnvelope(unpackEntry(bytes))) ?? []);
  return inspectStamps(entries, (seq) => standingAt(database, chain, seq), mathematics, undefined);
};

/** What a stamp has to fit: hash and time of the entry that it stamped. */
export const standingAt = (database: Database, chain: string, seq: number): Standing | undefined => {
  const row = database.get<{ hash: string; bytes: Uint8Array }>(
    'SELECT hash, bytes FROM entries WHERE chain = ? AND seq = ?',
    chain,
    seq,
  );
  return row === undefined ? undefined : { hash: row.hash, at: readEnvelope(unpackEntry(row.bytes)).at };
};
