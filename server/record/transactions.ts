/**
 * One transaction after the other, and certainty about each. Where the disk fails at the last step it is
 * asked what it holds: a commit that did take effect counts as kept, one that did not is told as such,
 * and where the disk gives no answer the question stays open until it does.
 */
import { CanonicalFailure } from '../ledger/canonical.ts';
import { Batch } from './batch.ts';
import { type Database, transact } from './database.ts';
import { isDiskFull, RecordFailure, wordsOf } from './failure.ts';
import { meta } from './schema.ts';

export interface Written<T> {
  readonly result: T;
  readonly batch: Batch;
}
interface Unsure {
  readonly stamp: number;
  readonly batch: Batch;
}

export class Transactions {
  private readonly database: Database;
  private readonly tell: (batch: Batch) => void;
  /** Number of the newest transaction that is known to be kept. */
  private stamp: number;
  private unsure: Unsure | undefined;
  private telling = false;

  /** `tell` is called once for every transaction that is kept, in order. */
  constructor(database: Database, tell: (batch: Batch) => void) {
    this.database = database;
    this.tell = tell;
    this.stamp = Number(meta(database, 'stamp') ?? 0);
  }

  /** Throws CanonicalFailure for what cannot be recorded, RecordFailure where the disk fails. */
  write<T>(work: (batch: Batch) => T): Written<T> {
    if (this.telling) throw new Error('a listener of the record may not write to it');
    this.settle();
    const stamp = this.stamp + 1;
    const prepared: Written<T>[] = [];
    try {
      transact(this.database, () => {
        const batch = new Batch(this.database);
        const result = work(batch);
        batch.finish(stamp);
        prepared.push({ result, batch });
      });
    } catch (error) {
      if (error instanceof CanonicalFailure) throw error;
      const kept = prepared[0] === undefined ? 'no' : this.askDisk(stamp);
      if (kept === 'unknown') this.unsure = { stamp, batch: prepared[0]!.batch };
      if (kept !== 'yes') throw failure(kept, error);
    }
    const written = prepared[0]!;
    this.stamp = stamp;
    this.announce(written.batch);
    return written;
  }

  /** Ends what an earlier failure left open. Throws RecordFailure while the disk still gives no answer. */
  private settle(): void {
    try {
      if (this.database.inTransaction) this.database.exec('ROLLBACK');
      if (this.unsure === undefined) return;
      const { stamp, batch } = this.unsure;
      const kept = meta(this.database, 'stamp') === stamp;
      this.unsure = undefined;
      if (!kept) return;
      this.stamp = stamp;
      this.announce(batch);
    } catch (error) {
      throw failure('no', error);
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

const failure = (kept: 'no' | 'unknown', error: unknown): RecordFailure => {
  const what = kept === 'no' ? 'This was not recorded' : 'It is not known whether this was recorded';
  const advice = isDiskFull(error)
    ? 'The disk is full: make room on it; recording goes on by itself.'
    : 'Check the disk that holds the record.';
  return new RecordFailure(kept, `${what}: ${wordsOf(error)}. ${advice}`, error);
};
