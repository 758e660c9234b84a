/**
 * One transaction after the other, and certainty about each. Where the disk fails at the last step it is
 * asked what it holds: a commit that did take effect counts as kept, one that did not is told as such,
 * and where the disk gives no answer the question stays open until it does.
 */
import { CanonicalFailure } from '../ledger/canonical.ts';
import { Batch, type Waiting } from './batch.ts';
import { type Database, transact } from './database.ts';
import { isDiskFull, RecordFailure, RecordRefusal, wordsOf } from './failure.ts';
import { meta } from './schema.ts';
import type { Pen } from './signer.ts';

/** A transaction whose outcome the disk did not tell. */
export interface Unsure {
  readonly stamp: number;
  readonly batch: Batch;
  readonly of: object | undefined;
}

export class Transactions {
  private readonly database: Database;
  private readonly tell: (batch: Batch) => void;
  /** Number of the newest transaction that is known to be kept. */
  private stamp: number;
  private readonly waiting: Waiting = new Map();
  private unsure: Unsure | undefined;
  private telling = false;
  /** Signs what is written from now on; undefined in a record without a key. */
  pen: Pen | undefined;

  /** `tell` is called once for every transaction that is kept, in order. */
  constructor(database: Database, tell: (batch: Batch) => void) {
    this.database = database;
    this.tell = tell;
    this.stamp = Number(meta(database, 'stamp') ?? 0);
  }

  /**
   * Throws CanonicalFailure for what cannot be recorded, RecordRefusal for what may not be done, RecordFailure where the disk fails. `of` is what
   * the work is about: where it is the same object as in a transaction whose outcome was unknown and that
   * turns out to be kept, the work is done already and is not done twice.
   */
  write(work: (batch: Batch) => void, of?: object): Batch {
    if (this.telling) throw new Error('a listener of the record may not write to it');
    const kept = this.settle();
    if (kept !== undefined && of !== undefined && kept.of === of) return kept.batch;
    const stamp = this.stamp + 1;
    const prepared: Batch[] = [];
    try {
      transact(this.database, () => {
        const batch = new Batch(this.database, this.waiting, this.pen);
        work(batch);
        batch.finish(stamp);
        prepared.push(batch);
      });
    } catch (error) {
      // It may hold scans that were rolled back; the disk knows what waits.
      this.waiting.clear();
      if (error instanceof CanonicalFailure || error instanceof RecordRefusal) throw error;
      const kept = prepared[0] === undefined ? 'no' : this.askDisk(stamp);
      if (kept === 'unknown') this.unsure = { stamp, batch: prepared[0]!, of };
      if (kept !== 'yes') throw failure(kept, error);
    }
    const batch = prepared[0]!;
    this.stamp = stamp;
    this.announce(batch);
    return batch;
  }

  /**
   * Ends what an earlier failure left open, and answers with what was kept after all. Throws
   * RecordFailure while the disk still gives no answer.
   */
  settle(): Unsure | undefined {
    try {
      if (this.database.inTransaction) this.database.exec('ROLLBACK');
      const unsure = this.unsure;
      if (unsure === undefined) return undefined;
      const kept = meta(this.database, 'stamp') === unsure.stamp;
      this.unsure = undefined;
      if (!kept) return undefined;
      this.stamp = unsure.stamp;
      this.announce(unsure.batch);
      return unsure;
    } catch (error) {
      throw failure(this.unsure === undefined ? 'no' : 'unknown', error);
    }
  }

  private askDisk(stamp: number): 'yes' | 'no' | 'unknown' {
    // Still in the transaction: it was not committed, and settle() will roll it back.
    if (this.database.inTransaction) return 'no';
    try {
      return meta(this.database, 'stamp') === stamp ? 'yes' : 'no';
    } catch {
      return 'unknown';
    }
  }

  private announce(batch: Batch): void {
    this.telling = true;
    try {
      this.tell(batch);
    } finally {
      this.telling = false;
    }
  }
}

/** Reading before a transaction: where that fails nothing was begun. Throws RecordFailure. */
export const reading = <T>(read: () => T): T => {
  try {
    return read();
  } catch (error) {
    throw failure('no', error);
  }
};

const failure = (kept: 'no' | 'unknown', error: unknown): RecordFailure => {
  const what = kept === 'no' ? 'This was not recorded' : 'It is not known whether this was recorded';
  const advice = isDiskFull(error)
    ? 'The disk is full: make room on it; recording goes on by itself.'
    : 'Check the disk that holds the record.';
  return new RecordFailure(kept, `${what}: ${wordsOf(error)}. ${advice}`, error);
};
