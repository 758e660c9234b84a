/** Rows of a chain as they are stored, with what signs them and with the scans that belong to them. */
import type { StoredSignature } from '../ledger/signatures.ts';
import type { StoredRow } from '../ledger/verify.ts';
import type { Database } from './database.ts';
import { hasSignatureTable } from './schema.ts';
import { type EntryRow, entryRows, filledFrom, isAway, type ReadingsHeld } from './walk.ts';

const rowsPerPage = 16;

export interface KeptRow {
  readonly stored: EntryRow;
  /** As it lies in the record, where its readings came from a package. */
  readonly kept: EntryRow;
}

/** Up to an entry, so that what comes in meanwhile stays out. */
export function* storedRows(
  database: Database,
  chain: string,
  lastSeq: number,
  readings?: ReadingsHeld,
): Generator<StoredRow & KeptRow, void> {
  const isSigned = hasSignatureTable(database);
  for (let after = 0; ; ) {
    const rows = entryRows(database, chain, after, rowsPerPage);
    const signatures = isSigned ? signaturesOf(database, chain, after, rows.at(-1)?.seq ?? after) : new Map();
    for (const kept of rows) {
      const stored = readings === undefined ? kept : filledFrom(readings, chain, kept);
      if (stored.seq > lastSeq) return;
      after = stored.seq;
      const { seq, bytes, hash, packed } = stored;
      const signature: StoredSignature | undefined = signatures.get(seq);
      yield {
        ...{ seq, bytes, hash, stored, kept },
        ...(packed === null || isAway(stored) ? {} : { packed }),
        ...(signature === undefined ? {} : { signature }),
      };
    }
    if (rows.length < rowsPerPage) return;
  }
}

const signaturesOf = (database: Database, chain: string, after: number, last: number): Map<number, StoredSignature> =>
  new Map(
    database
      .all<StoredSignature & { readonly seq: number }>(
        'SELECT seq, key, signature FROM signatures WHERE chain = ? AND seq > ? AND seq <= ?',
        chain,
        after,
        last,
      )
      .map(({ seq, key, signature }) => [seq, { key, signature }]),
  );
