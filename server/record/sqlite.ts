/**
 * The database port on SQLite. Every connection that writes is in WAL mode with synchronous=FULL, set
 * and read back: SQLite builds that default to NORMAL fall back to it silently when a file is opened
 * again, and would then lose acknowledged commits with the power.
 */
import { DatabaseSync, type DatabaseSyncInstance, type StatementSyncInstance } from '@photostructure/sqlite';
import type { Bound, Database, Disk, OpenMode } from './database.ts';

/** Of a new file, bytes: blocks of a minute leave less room between them than in pages of half the size. */
const pageBytes = 8192;

/** How long a connection waits for another one's lock, milliseconds. */
const busyTimeoutMilliseconds = 2000;

export const sqliteDisk: Disk = {
  open(path: string, mode: OpenMode): Database {
    const timeout = mode === 'lock' ? 0 : busyTimeoutMilliseconds;
    const database = new DatabaseSync(path, { readOnly: mode === 'read', timeout, defensive: true });
    try {
      if (mode === 'write') makeDurable(database);
      if (mode === 'read') database.exec('PRAGMA query_only=ON');
    } catch (error) {
      database.close();
      throw error;
    }
    return new Connection(database);
  },
};

const makeDurable = (database: DatabaseSyncInstance): void => {
  // An existing file keeps its own.
  database.exec(`PRAGMA page_size=${pageBytes}`);
  database.exec('PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA journal_size_limit=67108864');
  const journal = database.prepare('PRAGMA journal_mode').get().journal_mode;
  const synchronous = database.prepare('PRAGMA synchronous').get().synchronous;
  if (journal !== 'wal' || synchronous !== 2) {
    throw new Error(
      `the file system does not let SQLite write durably (journal ${journal}, synchronous ${synchronous}); ` +
        'use a folder on a local disk',
    );
  }
};

class Connection implements Database {
  private readonly database: DatabaseSyncInstance;
  private readonly statements = new Map<string, StatementSyncInstance>();

  constructor(database: DatabaseSyncInstance) {
    this.database = database;
  }

  exec(sql: string): void {
    this.database.exec(sql);
  }
  run(sql: string, ...bound: readonly Bound[]): void {
    this.prepare(sql).run(...checked(bound));
  }
  get<R>(sql: string, ...bound: readonly Bound[]): R | undefined {
    return this.prepare(sql).get(...checked(bound)) as R | undefined;
  }
  all<R>(sql: string, ...bound: readonly Bound[]): readonly R[] {
    return this.prepare(sql).all(...checked(bound)) as R[];
  }
  get inTransaction(): boolean {
    return this.database.isTransaction;
  }
  close(): void {
    if (!this.database.isOpen) return;
    this.statements.clear();
    // A connection that is closed in the middle of a transaction could go on holding its locks.
    if (this.database.isTransaction) this.database.exec('ROLLBACK');
    this.database.close();
  }

  /** All statements are written in this room and their number is fixed, so the cache is bounded. */
  private prepare(sql: string): StatementSyncInstance {
    let statement = this.statements.get(sql);
    if (statement === undefined) {
      statement = this.database.prepare(sql);
      this.statements.set(sql, statement);
    }
    return statement;
  }
}

/** NaN and undefined would become NULL or stop the statement without saying which one. */
const checked = (bound: readonly Bound[]): readonly Bound[] => {
  bound.forEach((value, index) => {
    const fits =
      value === null || typeof value === 'string' || value instanceof Uint8Array || Number.isSafeInteger(value);
    if (!fits) throw new TypeError(`value ${index + 1} handed to the database is ${String(value)}`);
  });
  return bound;
};
