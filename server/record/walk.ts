/**
 * One walk through one chain in the order of arrival, sealed scans, entries and the journal alike. All
 * reading of the tail and of the judge's inputs is this walk, so that live and later read the same.
 *
 * It reads in pages and holds no cursor between them: a slow consumer keeps no lock and lets the
 * database tidy its log. What arrives during the walk is read too, without a hole and without a repeat.
 */
import { type BlockBody, openBlock } from '../ledger/block.ts';
import { readEnvelope } from '../ledger/envelope.ts';
import type { CommittedItem } from '../ledger/item.ts';
import { decodeScans } from '../ledger/scans-read.ts';
import { committedEntry } from './batch.ts';
import { type Database, snapshot } from './database.ts';
import { ReadingsRemoved } from './failure.ts';
import { unpackEntry } from './packed-entry.ts';
import { decodePositions } from './positions.ts';
import { removedFrom } from './removals.ts';

export interface EntryRow {
  readonly seq: number;
  readonly position: number;
  readonly class: string;
  readonly kind: string;
  readonly hash: string;
  readonly bytes: Uint8Array;
  readonly positions: Uint8Array | null;
  readonly packed: Uint8Array | null;
  readonly measured_from: number | null;
  readonly measured_to: number | null;
}
interface JournalRow {
  readonly position: number;
  readonly scan: Uint8Array;
}
interface Page {
  readonly entries: readonly EntryRow[];
  readonly journal: readonly JournalRow[];
}

const entriesPerPage = 16;
const scansPerPage = 500;

/** What is done about readings that were removed: told to whoever cannot do without them, or passed over by who asks for what is there. */
export type WhereRemoved = 'refuse' | 'pass over';

/** Throws ReadingsRemoved where it comes to them and may not pass them over. */
export function* walkChain(
  database: Database,
  chain: string,
  after: number,
  { whereRemoved, readings }: { readonly whereRemoved: WhereRemoved; readonly readings?: ReadingsHeld | undefined },
): Generator<CommittedItem, void> {
  let seq = firstSeqAfter(database, chain, after) - 1;
  let position = after;
  for (;;) {
    const page = readPage(database, chain, seq, position);
    if (page.entries.length === 0 && page.journal.length === 0) return;
    for (const stored of page.entries) {
      seq = stored.seq;
      const row = readings === undefined ? stored : filledFrom(readings, chain, stored);
      if (isAway(row) && (whereRemoved === 'pass over' || refuseAway(database, chain))) continue;
      for (const item of itemsOf(chain, row, position)) {
        position = item.position;
        yield item;
      }
    }
    for (const row of page.journal) {
      position = row.position;
      yield { type: 'scan', position, chain, scan: decodeScans(row.scan, 1)[0]! };
    }
  }
}

/** Readings of removed blocks, as somebody's package holds them. */
export interface ReadingsHeld {
  packedOf(chain: string, seq: number): Uint8Array | undefined;
}

/** Of a block whose readings are not in the record the place is kept and empty. */
export const isAway = ({ packed }: Pick<EntryRow, 'packed'>): boolean => packed?.length === 0;

export const filledFrom = <R extends Pick<EntryRow, 'seq' | 'packed'>>(held: ReadingsHeld, chain: string, row: R): R =>
  isAway(row) ? { ...row, packed: held.packedOf(chain, row.seq) ?? row.packed } : row;

/** Where no entry says that they were removed they are missing, which is another thing. */
export const refuseAway = (database: Database, chain: string): false => {
  const removed = removedFrom(database, chain);
  if (removed !== undefined) throw new ReadingsRemoved(chain, removed);
  return false;
};

/** Entries of a chain with their blocks, from a place on. */
export const entryRows = (database: Database, chain: string, afterSeq: number, limit: number): readonly EntryRow[] => {
  const rows = database.all<EntryRow>(
    'SELECT e.seq, e.position, e.class, e.kind, e.hash, e.bytes, b.positions, b.packed, b.measured_from, ' +
      'b.measured_to FROM entries e ' +
      'LEFT JOIN blocks b ON b.chain = e.chain AND b.seq = e.seq WHERE e.chain = ? AND e.seq > ? ORDER BY e.seq LIMIT ?',
    chain,
    afterSeq,
    limit,
  );
  return rows.map((row) => ({ ...row, bytes: unpackedOrStored(row.bytes) }));
};

/** What cannot be unpacked is handed on as it stands: its hash then names the entry, which is more than a failure could. */
const unpackedOrStored = (stored: Uint8Array): Uint8Array => {
  try {
    return unpackEntry(stored);
  } catch {
    return stored;
  }
};

/** The journal is read only once no entry is left, and from the same state of the record. */
const readPage = (database: Database, chain: string, seq: number, position: number): Page =>
  snapshot(database, () => {
    const entries = entryRows(database, chain, seq, entriesPerPage);
    if (entries.length > 0) return { entries, journal: [] };
    const journal = database.all<JournalRow>(
      'SELECT position, scan FROM journal WHERE chain = ? AND position > ? ORDER BY position LIMIT ?',
      chain,
      position,
      scansPerPage,
    );
    return { entries, journal };
  });

/** Positions never fall along a chain, so that all before this place is known to the asker. */
const firstSeqAfter = (database: Database, chain: string, after: number): number =>
  database.get<{ seq: number }>(
    'SELECT coalesce((SELECT seq FROM entries WHERE chain = ?1 AND position > ?2 ORDER BY position, seq LIMIT 1), ' +
      '(SELECT max(seq) + 1 FROM entries WHERE chain = ?1), 1) AS seq',
    chain,
    after,
  )!.seq;

function* itemsOf(chain: string, row: EntryRow, after: number): Generator<CommittedItem, void> {
  if (row.class !== 'block') {
    if (row.position > after) yield committedEntry(row.position, row.hash, row.bytes);
    return;
  }
  if (row.packed === null || row.positions === null || row.position <= after) return;
  const body = readEnvelope(row.bytes).body as BlockBody;
  const positions = decodePositions(row.positions, body.count);
  const scans = openBlock(body, row.packed);
  for (let index = 0; index < scans.length; index += 1) {
    const position = positions[index]!;
    if (position > after) yield { type: 'scan', position, chain, scan: scans[index]! };
  }
}
