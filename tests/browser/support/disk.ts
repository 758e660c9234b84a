/**
 * A disk for browser tests. It answers before the bytes are safe, since nothing here tests the loss of power and a
 * day of commits would cost seconds; and it can be broken for writing, and mended.
 */
import type { Database, Disk } from '../../../server/record/database.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { DiskError } from '../../support/faulty-disk.ts';

export interface BreakableDisk extends Disk {
  break(): void;
  mend(): void;
}

const full = 13;

export function breakableDisk(): BreakableDisk {
  let broken = false;
  const write = <T>(effect: () => T): T => {
    if (broken) throw new DiskError(full);
    return effect();
  };
  return {
    break: () => {
      broken = true;
    },
    mend: () => {
      broken = false;
    },
    open: (path, mode) => {
      const inner = sqliteDisk.open(path, mode);
      if (mode !== 'write') return inner;
      inner.exec('PRAGMA synchronous=OFF');
      const database: Database = {
        exec: (sql) => write(() => inner.exec(sql)),
        run: (sql, ...bound) => write(() => inner.run(sql, ...bound)),
        get: (sql, ...bound) => inner.get(sql, ...bound),
        all: (sql, ...bound) => inner.all(sql, ...bound),
        get inTransaction() {
          return inner.inTransaction;
        },
        close: () => inner.close(),
      };
      return database;
    },
  };
}
