/** What can go wrong with a record, by name, with words that say what to do next. */
import type { Removed } from '../ledger/removal-entry.ts';
import { readingsAwayText } from '../wording/removal.ts';

/** The record cannot be opened as asked; nothing has been touched. */
export class RecordRefusal extends Error {
  readonly reason: 'no record' | 'open elsewhere' | 'newer format' | 'not a record' | 'not possible' | 'no key';
  constructor(reason: RecordRefusal['reason'], message: string, cause?: unknown) {
    super(message, { cause });
    this.name = 'RecordRefusal';
    this.reason = reason;
  }
}

/** The readings of a joint were asked for, and were removed from the record into a package. The words say which, and what to do. */
export class ReadingsRemoved extends Error {
  constructor(chain: string, removed: Removed) {
    super(readingsAwayText(chain, removed));
    this.name = 'ReadingsRemoved';
  }
}

/**
 * Something was not kept. `kept` is 'no' where that is certain, and 'unknown' where the disk failed at
 * the last step and cannot be asked: the next step finds out first, and hands what was kept after all to
 * the listeners.
 */
export class RecordFailure extends Error {
  readonly kept: 'no' | 'unknown';
  readonly diskFull: boolean;
  constructor(kept: 'no' | 'unknown', message: string, cause: unknown) {
    super(message, { cause });
    this.name = 'RecordFailure';
    this.kept = kept;
    this.diskFull = isDiskFull(cause);
  }
}

/** SQLite's own result codes; the low byte is the primary one. */
const busy = 5;
const corrupt = 11;
const full = 13;
const notADatabase = 26;

/** The driver leaves the code out of some errors; SQLite's own words for them then say which it was. */
const codes: Readonly<Record<string, number>> = {
  'database is locked': busy,
  'database disk image is malformed': corrupt,
  'database or disk is full': full,
  'file is not a database': notADatabase,
};

const resultCode = (error: unknown): number | undefined => {
  if (typeof error !== 'object' || error === null) return undefined;
  if ('errcode' in error && typeof error.errcode === 'number') return error.errcode & 0xff;
  return codes[wordsOf(error)];
};
export const isDiskFull = (error: unknown): boolean => resultCode(error) === full;
export const isBusy = (error: unknown): boolean => resultCode(error) === busy;
export const isNotADatabase = (error: unknown): boolean => resultCode(error) === notADatabase;

export const isDamaged = (error: unknown): boolean => resultCode(error) === corrupt || isNotADatabase(error);

export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
