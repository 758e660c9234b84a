/** Where the readings of a chain are: in the record, or in a package that an entry names. */
import { readEnvelope } from '../ledger/envelope.ts';
import {
  isRemoved,
  putBackKind,
  type RemovalEntry,
  type Removed,
  removalNamedBy,
  removedKind,
} from '../ledger/removal-entry.ts';
import type { Database } from './database.ts';
import { unpackEntry } from './packed-entry.ts';

/** Oldest first. */
export const removalsOf = (database: Database, chain: string): readonly RemovalEntry[] =>
  database
    .all<{ bytes: Uint8Array }>(
      "SELECT bytes FROM entries WHERE chain = ? AND class = 'block' AND kind IN (?, ?) ORDER BY seq",
      chain,
      removedKind,
      putBackKind,
    )
    .flatMap(({ bytes }) => removalNamedBy(readEnvelope(unpackEntry(bytes))) ?? []);

/** The first block tells at once, since all of a chain go together; the entries, which are many, are asked only then. */
export const removedFrom = (database: Database, chain: string): Removed | undefined => {
  const first = database.get<{ bytes: number }>(
    'SELECT length(packed) AS bytes FROM blocks WHERE chain = ? ORDER BY seq LIMIT 1',
    chain,
  );
  if (first?.bytes !== 0) return undefined;
  const newest = removalsOf(database, chain).at(-1);
  return isRemoved(newest) ? newest : undefined;
};

/** For whoever believes nothing of it: number of the newest entry, where that says that they were removed. */
export const newestRemoval = (database: Database, chain: string): number | undefined => {
  const newest = database.get<{ seq: number; kind: string }>(
    "SELECT seq, kind FROM entries WHERE chain = ? AND class = 'block' AND kind IN (?, ?) ORDER BY seq DESC LIMIT 1",
    chain,
    removedKind,
    putBackKind,
  );
  return newest?.kind === removedKind ? newest.seq : undefined;
};
