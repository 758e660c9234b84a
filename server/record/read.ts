/**
 * The read side of a record: for the outlets through the store, and for workers and commands through a
 * read-only connection of their own.
 */
import { type BlockBody, openCourses } from '../ledger/block.ts';
import { type Course, decodeCourses } from '../ledger/courses-read.ts';
import { readEnvelope } from '../ledger/envelope.ts';
import { noHash } from '../ledger/hash.ts';
import { signatureText } from '../ledger/head-text.ts';
import { type CommittedEntry, type CommittedItem, inputOf, proceduresChain, stationChain } from '../ledger/item.ts';
import { fingerprintOf } from '../ledger/keys.ts';
import type { RemovalEntry, Removed } from '../ledger/removal-entry.ts';
import type { StoredRow } from '../ledger/verify.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { SeenStamp } from '../proof/stamps.ts';
import type { Input } from '../weld/entry.ts';
import type { ImportedFile } from '../weld/imported.ts';
import { committedEntry } from './batch.ts';
import { type GrownChain, grownSince, type KeptCard, keptCards, newestEntry } from './cards.ts';
import { type Database, type Disk, snapshot } from './database.ts';
import { openFolderToRead } from './folder.ts';
import { type ChainHead, hashAt, type SignedHead } from './head.ts';
import { unpackEntry } from './packed-entry.ts';
import { removalsOf, removedFrom } from './removals.ts';
import { hasSignatureTable, meta } from './schema.ts';
import { keysNamed } from './signer.ts';
import { sqliteDisk } from './sqlite.ts';
import { keptStamps } from './stamps-kept.ts';
import { storedRows } from './stored.ts';
import { tailAfter } from './tail.ts';
import { filledFrom, isAway, type ReadingsHeld, refuseAway, walkChain } from './walk.ts';

export interface KeptDocument {
  readonly sha256: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}
export interface KeptImport {
  readonly chain: string;
  readonly at: Instant;
  readonly file: ImportedFile;
}
export interface KeptBlock {
  readonly seq: number;
  readonly bytes: number;
}
export interface RecordReader {
  /** Position of the newest scan or entry of the whole record; 0 when there is none. */
  position(): number;
  chains(): readonly ChainHead[];
  /** Those that are open, and of the others the newest. */
  newestChains(closed: number): readonly ChainHead[];
  /** First entries that came after the position and hold the text. */
  openingsSince(position: number, holding: string): readonly CommittedEntry[];
  head(chain: string): ChainHead;
  /** The head of a chain that has entries, as it is carried out of the house. */
  signedHead(chain: string): SignedHead;
  /** At most `limit` items with a greater position, in order: what the listeners were told after it. */
  after(position: number, options: { readonly chain?: string; readonly limit: number }): readonly CommittedItem[];
  /** All inputs of the judge in the order of the chain, with those not sealed yet. Throws ReadingsRemoved where there are none to read. */
  inputs(chain: string): Iterable<Input>;
  conclusions(chain: string): Iterable<CommittedEntry>;
  /** Inputs that are not scans, and conclusions. */
  entries(chain: string): Iterable<CommittedEntry>;
  /** Temperatures of all scans that overlap the span, in no order of time, and with what their blocks hold beyond it. Throws ReadingsRemoved. */
  coursesBetween(chain: string, from: Instant, to: Instant): Iterable<Course>;
  /** Entries up to the head as they are stored, believed in nothing. */
  stored(chain: string): Iterable<StoredRow>;
  /** Each time that the readings of a chain were removed, or put back, oldest first. */
  removals(chain: string): readonly RemovalEntry[];
  /** The removal by which the readings of the chain are not in the record; undefined where they are. */
  removed(chain: string): Removed | undefined;
  /** Blocks with readings: number of the entry, and how many bytes lie on the disk. */
  blocks(chain: string): readonly KeptBlock[];
  /** Public keys of the record, oldest first. */
  keys(): readonly string[];
  /** Hash of one entry. */
  hashAt(chain: string, seq: number): string | undefined;
  /** Numbers and hashes of a chain's entries, newest first. */
  hashes(chain: string): Iterable<{ readonly seq: number; readonly hash: string }>;
  /** Time stamps of heads of the chain, each looked at. */
  stamps(chain: string): readonly SeenStamp[];
  document(sha256: string): KeptDocument | undefined;
  /** Chains with anything newer than the position. */
  grownSince(position: number): readonly GrownChain[];
  /** Number of the newest entry of the chain that is no block. */
  newestEntry(chain: string): number;
  /** What was drawn out of closed joints by the program of that name. */
  cards(made: string): readonly KeptCard[];
  /** Every file that a joint was made from, each with that joint's chain. */
  importedFiles(): readonly KeptImport[];
  close(): void;
}

/** Throws RecordRefusal. */
export const openRecordReadOnly = (folder: string, disk: Disk = sqliteDisk, readings?: ReadingsHeld): RecordReader =>
  readerOf(openFolderToRead(folder, disk), readings);

/** `readings`: of removed blocks, as packages hold them; read as if they were in the record. */
export const readerOf = (database: Database, readings?: ReadingsHeld): RecordReader => ({
  position: () => Number(meta(database, 'position') ?? 0),
  chains: () => database.all<HeadRow>(`SELECT ${headColumns} FROM chains ORDER BY chain`).map(headOf),
  newestChains: (closed) =>
    database
      .all<HeadRow>(
        `SELECT ${headColumns} FROM chains WHERE open = 1 OR chain IN
         (SELECT chain FROM chains WHERE open = 0 AND chain NOT IN (?, ?) ORDER BY position DESC LIMIT ?) ORDER BY chain`,
        stationChain,
        proceduresChain,
        closed,
      )
      .map(headOf),
  openingsSince: (position, holding) =>
    database
      .all<{ position: number; hash: string; bytes: Uint8Array }>(
        `SELECT e.position, e.hash, e.bytes FROM chains c JOIN entries e ON e.chain = c.chain AND e.seq = 1
         WHERE c.position > ? AND e.position > ? AND instr(e.bytes, ?) > 0`,
        position,
        position,
        new TextEncoder().encode(holding),
      )
      .map((row) => committedEntry(row.position, row.hash, row.bytes)),
  head: (chain) => {
    const row = database.get<HeadRow>(`SELECT ${headColumns} FROM chains WHERE chain = ?`, chain);
    return row === undefined ? { chain, seq: 0, hash: noHash, position: 0, open: false, journalled: 0 } : headOf(row);
  },
  signedHead: (chain) => signedHeadOf(database, chain),
  after: (position, options) => {
    const limit = Math.min(options.limit, limits.tailItemsMaximum);
    return snapshot(database, () => tailAfter(database, position, options.chain, limit));
  },
  inputs: (chain) => inputsOf(database, chain, readings),
  conclusions: (chain) => entriesOf(database, chain, ['conclusion', 'conclusion']),
  entries: (chain) => entriesOf(database, chain, ['input', 'conclusion']),
  coursesBetween: (chain, from, to) => coursesBetween(database, chain, { from, to }, readings),
  stored: (chain) => storedRows(database, chain, signedHeadOf(database, chain).seq, readings),
  removals: (chain) => removalsOf(database, chain),
  removed: (chain) => removedFrom(database, chain),
  blocks: (chain) =>
    database.all<KeptBlock>('SELECT seq, length(packed) AS bytes FROM blocks WHERE chain = ? ORDER BY seq', chain),
  keys: () => keysNamed(database),
  hashAt: (chain, seq) => hashAt(database, chain, seq),
  hashes: (chain) => hashesOf(database, chain),
  stamps: (chain) => keptStamps(database, chain),
  document: (sha256) => {
    const row = database.get<{ media_type: string; bytes: Uint8Array }>(
      'SELECT media_type, bytes FROM documents WHERE sha256 = ?',
      sha256,
    );
    return row === undefined ? undefined : { sha256, mediaType: row.media_type, bytes: row.bytes };
  },
  grownSince: (position) => grownSince(database, position),
  newestEntry: (chain) => newestEntry(database, chain),
  cards: (made) => keptCards(database, made),
  importedFiles: () =>
    database
      .all<{ position: number; hash: string; bytes: Uint8Array }>(
        "SELECT position, hash, bytes FROM entries WHERE kind = 'imported file' ORDER BY position, seq",
      )
      .map(({ position, hash, bytes }) => committedEntry(position, hash, bytes))
      .map(({ chain, at, body }) => ({ chain, at, file: body as ImportedFile })),
  close: () => database.close(),
});

interface HeadRow {
  readonly chain: string;
  readonly seq: number;
  readonly hash: string;
  readonly position: number;
  readonly open: number;
  readonly journalled: number;
}
const headColumns = 'chain, seq, hash, position, open, journalled';
const headOf = (row: HeadRow): ChainHead => ({ ...row, open: row.open === 1 });

/** From one state of the record, so that hash and signature belong together. */
const signedHeadOf = (database: Database, chain: string): SignedHead =>
  snapshot(database, () => {
    const row = database.get<{ seq: number; hash: string }>('SELECT seq, hash FROM chains WHERE chain = ?', chain);
    const head = { chain, seq: row?.seq ?? 0, hash: row?.hash ?? noHash };
    const signed = hasSignatureTable(database)
      ? database.get<{ key: number; signature: Uint8Array }>(
          'SELECT key, signature FROM signatures WHERE chain = ? AND seq = ?',
          chain,
          head.seq,
        )
      : undefined;
    const key = signed === undefined ? undefined : keysNamed(database)[signed.key - 1];
    if (signed === undefined || key === undefined) return head;
    return { ...head, signature: signatureText(signed.signature), fingerprint: fingerprintOf(key) };
  });

function* hashesOf(database: Database, chain: string): Generator<{ seq: number; hash: string }, void> {
  for (let before = Number.MAX_SAFE_INTEGER; ; ) {
    const rows = database.all<{ seq: number; hash: string }>(
      'SELECT seq, hash FROM entries WHERE chain = ? AND seq < ? ORDER BY seq DESC LIMIT ?',
      chain,
      before,
      entriesPerPage,
    );
    yield* rows;
    if (rows.length < entriesPerPage) return;
    before = rows.at(-1)!.seq;
  }
}

/** May be gone through again, each time from the beginning. */
const inputsOf = (database: Database, chain: string, readings: ReadingsHeld | undefined): Iterable<Input> => ({
  *[Symbol.iterator]() {
    for (const item of walkChain(database, chain, 0, { whereRemoved: 'refuse', readings })) {
      const input = inputOf(item);
      if (input !== undefined) yield input;
    }
  },
});

const entriesPerPage = 200;
const entriesOf = (
  database: Database,
  chain: string,
  classes: readonly [string, string],
): Iterable<CommittedEntry> => ({
  *[Symbol.iterator]() {
    for (let seq = 0; ; ) {
      const rows = database.all<{ seq: number; position: number; hash: string; bytes: Uint8Array }>(
        'SELECT seq, position, hash, bytes FROM entries WHERE chain = ? AND seq > ? AND class IN (?, ?) ORDER BY seq LIMIT ?',
        chain,
        seq,
        ...classes,
        entriesPerPage,
      );
      for (const row of rows) yield committedEntry(row.position, row.hash, row.bytes);
      if (rows.length < entriesPerPage) return;
      seq = rows.at(-1)!.seq;
    }
  },
});

/** Which blocks is settled at once, so that scans sealed meanwhile come neither twice nor never. */
function* coursesBetween(
  database: Database,
  chain: string,
  { from, to }: { readonly from: Instant; readonly to: Instant },
  readings: ReadingsHeld | undefined,
): Generator<Course, void> {
  const { blocks, journal } = snapshot(database, () => ({
    blocks: database.all<{ seq: number }>(
      'SELECT seq FROM blocks WHERE chain = ? AND measured_to >= ? AND measured_from <= ? ORDER BY seq',
      chain,
      from,
      to,
    ),
    journal: database.all<{ scan: Uint8Array }>(
      'SELECT scan FROM journal WHERE chain = ? AND measured_at BETWEEN ? AND ? ORDER BY position',
      chain,
      from,
      to,
    ),
  }));
  // One block at a time, so that a long span takes no memory.
  for (const { seq } of blocks) {
    const stored = database.get<{ seq: number; bytes: Uint8Array; packed: Uint8Array }>(
      'SELECT e.seq, e.bytes, b.packed FROM entries e JOIN blocks b ON b.chain = e.chain AND b.seq = e.seq WHERE e.chain = ? AND e.seq = ?',
      chain,
      seq,
    )!;
    const row = readings === undefined ? stored : filledFrom(readings, chain, stored);
    if (isAway(row)) refuseAway(database, chain);
    yield* openCourses(readEnvelope(unpackEntry(row.bytes)).body as BlockBody, row.packed);
  }
  for (const row of journal) yield* decodeCourses(row.scan, 1);
}
