/** What all of this room shares: the file, opened once it is there, the clock, and the list of what was done by whom. */
import type { Instant } from '../measure/quantity.ts';
import { type Database, type Disk, transact } from '../record/database.ts';
import { sqliteDisk } from '../record/sqlite.ts';
import { beginPeopleFile, openPeopleFile } from './file.ts';

export interface BookOptions {
  readonly file: string;
  /** Wall clock, milliseconds: a pause outlives a restart. */
  readonly now: () => number;
  readonly disk?: Disk;
}

export interface Book {
  now(): number;
  /** Nothing where there is no file yet. */
  all<R>(sql: string, ...bound: readonly (string | number)[]): readonly R[];
  get<R>(sql: string, ...bound: readonly (string | number)[]): R | undefined;
  /** Does the work and notes it, or neither. Begins the file where there is none. */
  change(who: string, what: string, work: (database: Database) => void): void;
  /** What is no deed of anybody: tries that are counted. */
  count(work: (database: Database) => void): void;
  close(): void;
}

export function openBook({ file, now, disk = sqliteDisk }: BookOptions): Book {
  let kept = openPeopleFile(file, disk);
  /** Looked for at each asking: the first administrator may be added while the station runs. */
  const there = (): Database | undefined => {
    kept ??= openPeopleFile(file, disk);
    return kept;
  };
  return {
    now,
    all: <R>(sql: string, ...bound: readonly (string | number)[]) => there()?.all<R>(sql, ...bound) ?? [],
    get: <R>(sql: string, ...bound: readonly (string | number)[]) => there()?.get<R>(sql, ...bound),
    change(who, what, work) {
      kept ??= beginPeopleFile(file, disk);
      const database = kept;
      transact(database, () => {
        work(database);
        database.run('INSERT INTO events (at, who, what) VALUES (?, ?, ?)', now(), who, what);
      });
    },
    count(work) {
      const database = there();
      if (database !== undefined) transact(database, () => work(database));
    },
    close: () => kept?.close(),
  };
}

export interface PeopleEvent {
  readonly at: Instant;
  readonly who: string;
  readonly what: string;
}

/** Newest first. */
export const eventsOf = (book: Book, most: number): readonly PeopleEvent[] =>
  book.all<PeopleEvent>('SELECT at, who, what FROM events ORDER BY number DESC LIMIT ?', most);
