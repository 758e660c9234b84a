/**
 * A disk that fails at a step of the test's choice: before the step took effect, or after it did, once
 * or for good until it is healed. Every call through the database port is a step.
 */
import type { Database, Disk } from '../../server/record/database.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';

export type Fault = 'before' | 'after' | 'dead before' | 'dead after';
export const faults: readonly Fault[] = ['before', 'after', 'dead before', 'dead after'];

/** As SQLite reports it: 10 is an input or output error, 13 a full disk. */
export class DiskError extends Error {
  readonly errcode: number;
  constructor(errcode: number) {
    super(errcode === 13 ? 'database or disk is full' : 'disk I/O error');
    this.errcode = errcode;
  }
}

export interface FaultyDisk extends Disk {
  /** Fails at the step-th call from now, counted from 1. */
  plan(step: number, fault: Fault, errcode?: number): void;
  /** No more failures. Answers whether the planned one came to pass. */
  heal(): boolean;
}

export const faultyDisk = (): FaultyDisk => {
  let left = 0;
  let fault: Fault = 'before';
  let errcode = 10;
  let dead = false;
  let struck = false;
  const step = <T>(effect: () => T): T => {
    if (dead) throw new DiskError(errcode);
    if (left === 0) return effect();
    left -= 1;
    if (left > 0) return effect();
    struck = true;
    dead = fault.startsWith('dead');
    if (fault.endsWith('after')) effect();
    throw new DiskError(errcode);
  };
  return {
    plan: (at, kind, code = 10) => {
      [left, fault, errcode, dead, struck] = [at, kind, code, false, false];
    },
    heal: () => {
      [left, dead] = [0, false];
      return struck;
    },
    open: (path, mode) => {
      const inner = step(() => sqliteDisk.open(path, mode));
      const database: Database = {
        exec: (sql) => step(() => inner.exec(sql)),
        run: (sql, ...bound) => step(() => inner.run(sql, ...bound)),
        get: <R>(sql: string, ...bound: Parameters<Database['get']>[1][]) => step(() => inner.get<R>(sql, ...bound)),
        all: <R>(sql: string, ...bound: Parameters<Database['all']>[1][]) => step(() => inner.all<R>(sql, ...bound)),
        get inTransaction() {
          return inner.inTransaction;
        },
        close: () => inner.close(),
      };
      return database;
    },
  };
};
