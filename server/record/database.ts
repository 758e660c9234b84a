/**
 * The port to the database: the few calls that the record needs. sqlite.ts is the one that is shipped;
 * tests hand in one that fails at a step of their choice, before or after the step took effect.
 */

export type Bound = string | number | Uint8Array | null;
export type Row = Readonly<Record<string, unknown>>;

export interface Database {
  /** Statements without values: schema, BEGIN IMMEDIATE, COMMIT, ROLLBACK. */
  exec(sql: string): void;
  run(sql: string, ...bound: readonly Bound[]): void;
  get<R = Row>(sql: string, ...bound: readonly Bound[]): R | undefined;
  /** All rows at once: ask for pages. No cursor stays open between two calls. */
  all<R = Row>(sql: string, ...bound: readonly Bound[]): readonly R[];
  readonly inTransaction: boolean;
  close(): void;
}

export type OpenMode = 'write' | 'read' | 'lock';

export interface Disk {
  /** Opens or, in the modes 'write' and 'lock', creates the file. Throws what SQLite throws. */
  open(path: string, mode: OpenMode): Database;
}

/** The work, all of it or nothing. BEGIN IMMEDIATE, so that no other writer can come between. */
export const transact = <T>(database: Database, work: () => T): T => {
  database.exec('BEGIN IMMEDIATE');
  try {
    const result = work();
    database.exec('COMMIT');
    return result;
  } catch (error) {
    rollBack(database);
    throw error;
  }
};

/** The reads, all from one state of the record. */
export const snapshot = <T>(database: Database, reads: () => T): T => {
  if (database.inTransaction) return reads();
  database.exec('BEGIN');
  try {
    return reads();
  } finally {
    rollBack(database);
  }
};

const rollBack = (database: Database): void => {
  try {
    if (database.inTransaction) database.exec('ROLLBACK');
  } catch {
    // SQLite has rolled back by itself, or the connection is gone; the first error is the one to tell.
  }
};
