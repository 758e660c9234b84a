/**
 * The record: what is committed here is kept, and nothing is shown that is not. One writer; every call is
 * synchronous, so that the order of calls is the order of the record. Time is handed in.
 */
import type { SealedBlock } from '../ledger/block.ts';
import { CanonicalFailure } from '../ledger/canonical.ts';
import { sha256Hex } from '../ledger/hash.ts';
import { type CommittedItem, type EntryItem, type Item, stationChain } from '../ledger/item.ts';
import { type StampBody, stampKind } from '../ledger/stamp-entry.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { Batch } from './batch.ts';
import { addCardTable, type KeptCard, writeCards } from './cards.ts';
import { type Database, type Disk, transact } from './database.ts';
import { RecordRefusal, wordsOf } from './failure.ts';
import { openFolder, openFolderToRead } from './folder.ts';
import type { ChainHead } from './head.ts';
import { type RecordReader, readerOf } from './read.ts';
import { type Asked, type Fitting, putBackReadings, removeReadings } from './retaining.ts';
import { createTables, forgetMeta, meta, recordFormat, setMeta } from './schema.ts';
import { type Sealed, sealAll, sealDue } from './seal.ts';
import { handOverKey, type KeyOptions, type Signer, takePen } from './signer.ts';
import { sqliteDisk } from './sqlite.ts';
import { Transactions } from './transactions.ts';

export interface RecordOptions extends KeyOptions {
  /** Begin a record where there is none. Without it a mistyped folder is refused. */
  readonly begin: boolean;
  /** Name and version of this program, as it shall stand in the record. */
  readonly program: string;
  readonly disk?: Disk;
  /** The rules of this program as one script: kept as a document, so that the record can be judged by them for ever. */
  readonly rules?: { readonly sha256: string; readonly bytes: Uint8Array };
}
export interface Committed {
  /** As kept: positions given, and each body as its bytes say it. */
  readonly items: readonly CommittedItem[];
  /** Of the newest item of the record. */
  readonly position: number;
  /** Heads of the chains that were written to. */
  readonly heads: readonly ChainHead[];
}
/** An entry, or scans that were sealed elsewhere. */
export type WholeItem = EntryItem | { readonly type: 'block'; readonly at: Instant; readonly sealed: SealedBlock };
export type CommitListener = (items: readonly CommittedItem[], position: number) => void;

export interface RecordStore extends RecordReader {
  /**
   * Keeps all of the items or none. Throws CanonicalFailure for an item that cannot be recorded (nothing
   * was kept, hand in better ones), RecordFailure where the disk fails. The very same list may be handed
   * in again after a RecordFailure, whatever its `kept` says: it is never recorded twice.
   */
  commit(items: readonly Item[]): Committed;
  /**
   * A whole chain at once, as of a job that is kept from its logs: all of it or nothing. Throws like commit, and
   * CanonicalFailure where there is such a chain.
   */
  keepWhole(chain: string, items: readonly WholeItem[]): ChainHead;
  /** Seals what has waited, proves being awake, notes heads. To be called about once a second. */
  sealDue(now: Instant): Sealed;
  /** Called after every commit, in order. Returns the function that ends it. It must neither throw nor commit. */
  onCommit(listener: CommitListener): () => void;
  /** Keeps the document once and answers its SHA-256. */
  putDocument(bytes: Uint8Array, mediaType: string): string;
  /** Keeps what was drawn out of closed joints, under the name of the program that drew it. */
  keepCards(made: string, cards: readonly KeptCard[]): void;
  /** Keeps a time stamp of a head of the chain, which was checked before. */
  keepStamp(chain: string, stamp: StampBody): void;
  /** Takes the readings of a closed joint out, which a package holds that was looked at before. Throws RecordRefusal where the joint changed since. */
  removeReadings(fitting: Fitting, asked: Asked): void;
  /** Puts them back: of each block by its number. Throws RecordRefusal likewise. */
  putBackReadings(fitting: Fitting, readings: ReadonlyMap<number, Uint8Array>, asked: Asked): void;
  /** Another key signs from here on. Its entry is signed by the key before it. */
  changeKey(next: Signer, reason: string): void;
}

/** Throws RecordRefusal. */
export const openRecord = (options: RecordOptions): RecordStore => {
  const disk = options.disk ?? sqliteDisk;
  const { database, fresh, release } = openFolder(options.folder, options.begin, disk);
  let reading: Database | undefined;
  const leave = (): void => {
    try {
      reading?.close();
      database.close();
    } finally {
      release();
    }
  };
  try {
    if (fresh) beginRecord(database, options);
    // Read over a connection of its own: what is in the middle of a transaction, or stuck in one, cannot be seen.
    reading = openFolderToRead(options.folder, disk);
    return storeOf(database, readerOf(reading), options, leave);
  } catch (error) {
    leave();
    if (error instanceof RecordRefusal) throw error;
    const told = `The record in ${options.folder} cannot be opened: ${wordsOf(error)}.`;
    throw new RecordRefusal('not possible', told, error);
  }
};

/** Tables and first entry in one transaction: a record without its beginning cannot exist. */
const beginRecord = (database: Database, { now, program }: RecordOptions): void =>
  transact(database, () => {
    createTables(database);
    const batch = new Batch(database, new Map());
    batch.write(stationChain, now(), 'began', { format: recordFormat, program });
    setMeta(database, 'program', program);
    batch.finish(1);
  });

const storeOf = (database: Database, reader: RecordReader, options: RecordOptions, leave: () => void): RecordStore => {
  const listeners = new Set<CommitListener>();
  const transactions = new Transactions(database, (batch) => deliver(listeners, batch));
  takePen(database, transactions, options);
  noteRestored(database, transactions, options.now());
  noteProgram(database, transactions, options);
  let closed = false;
  return {
    ...reader,
    commit: (items) => commit(transactions, reader, items),
    keepWhole: (chain, items) => keepWhole(transactions, reader, chain, items),
    sealDue: (now) => sealDue(database, transactions, now),
    onCommit: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    putDocument: (bytes, mediaType) => putDocument(database, transactions, bytes, mediaType, options.now()),
    keepCards: (made, cards) => {
      transactions.write(() => {
        addCardTable(database);
        writeCards(database, made, cards);
      });
    },
    keepStamp: (chain, stamp) => {
      transactions.write((batch) => batch.write(chain, options.now(), stampKind, stamp));
    },
    removeReadings: (fitting, asked) => removeReadings(database, transactions, fitting, asked),
    putBackReadings: (fitting, readings, asked) => putBackReadings(database, transactions, fitting, readings, asked),
    changeKey: (next, reason) => handOverKey(transactions, options.now(), next, reason),
    close: () => {
      if (closed) return;
      closed = true;
      try {
        sealAll(database, transactions, options.now());
        database.exec('PRAGMA wal_checkpoint(TRUNCATE)');
      } catch {
        // What is not sealed stays in the journal, as safe as before; the next start seals it.
      } finally {
        leave();
      }
    },
  };
};

const commit = (transactions: Transactions, reader: RecordReader, items: readonly Item[]): Committed => {
  if (items.length === 0) return { items: [], position: reader.position(), heads: [] };
  if (items.length > limits.commitItemsMaximum) {
    throw new CanonicalFailure(
      'items',
      `${items.length} at once; one commit takes at most ${limits.commitItemsMaximum}`,
    );
  }
  const batch = transactions.write((open) => {
    for (const item of items) open.add(item);
  }, items);
  return { items: batch.items, position: batch.position, heads: batch.heads() };
};

const keepWhole = (
  transactions: Transactions,
  reader: RecordReader,
  chain: string,
  items: readonly WholeItem[],
): ChainHead => {
  if (items.length > limits.commitItemsMaximum) {
    throw new CanonicalFailure('items', `${items.length} entries; one job takes at most ${limits.commitItemsMaximum}`);
  }
  transactions.write((batch) => {
    if (reader.head(chain).seq > 0) throw new CanonicalFailure('chain', `there is one called "${chain}"`);
    for (const item of items) {
      if (item.type === 'block') batch.addBlock(chain, item.at, item.sealed);
      else batch.add(item);
    }
  }, items);
  return reader.head(chain);
};

/** What a copy that was put back has to say of itself: its first entry, made once (put-back.ts). */
const noteRestored = (database: Database, transactions: Transactions, now: Instant): void => {
  const told = meta(database, 'restored');
  if (typeof told !== 'string') return;
  transactions.write((batch) => {
    batch.write(stationChain, now, 'restored', JSON.parse(told));
    forgetMeta(database, 'restored');
  });
};

/** The program that writes from here on, and its rules, where they are not those that wrote before. */
const noteProgram = (database: Database, transactions: Transactions, options: RecordOptions): void => {
  const { now, program, rules } = options;
  const noted = meta(database, 'rules');
  if (meta(database, 'program') === program && (rules === undefined || noted === rules.sha256)) return;
  if (rules !== undefined) putDocument(database, transactions, rules.bytes, 'text/javascript', now());
  transactions.write((batch) => {
    batch.write(stationChain, now(), 'program', { program, ...(rules === undefined ? {} : { rules: rules.sha256 }) });
    setMeta(database, 'program', program);
    if (rules !== undefined) setMeta(database, 'rules', rules.sha256);
  });
};

const deliver = (listeners: ReadonlySet<CommitListener>, batch: Batch): void => {
  if (batch.items.length === 0) return;
  for (const listener of listeners) {
    try {
      listener(batch.items, batch.position);
    } catch (error) {
      // The commit stands whatever a listener does; its fault must neither be hidden nor look like ours.
      queueMicrotask(() => {
        throw error;
      });
    }
  }
};

const putDocument = (
  database: Database,
  transactions: Transactions,
  bytes: Uint8Array,
  mediaType: string,
  now: Instant,
): string => {
  if (bytes.length === 0) throw new CanonicalFailure('document', 'it is empty');
  if (bytes.length > limits.documentMaximum) {
    throw new CanonicalFailure('document', `${bytes.length} bytes; at most ${limits.documentMaximum} are kept`);
  }
  if (mediaType.length === 0 || mediaType.length > limits.nameMaximum) {
    throw new CanonicalFailure('media type', `1 to ${limits.nameMaximum} characters are allowed`);
  }
  const sha256 = sha256Hex(bytes);
  transactions.write(() => {
    database.run(
      'INSERT INTO documents (sha256, media_type, kept_at, bytes) VALUES (?, ?, ?, ?) ON CONFLICT (sha256) DO NOTHING',
      sha256,
      mediaType,
      now,
      bytes,
    );
  });
  return sha256;
};
