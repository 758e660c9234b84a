/**
 * Takes a copy of a record and is killed on the way, by its own hand (SIGKILL) at the step that it is told, or by whoever hears it
 * say that the copying begins: FROM TO STEP.
 */
import { keepCopy } from '../../server/record/keep-copy.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';

const [, , from = '', to = '', step = ''] = process.argv;
const dieAt = (at: string): void => {
  if (step === at) process.kill(process.pid, 'SIGKILL');
};

keepCopy({
  ...{ from, to, at: 'now' },
  disk: {
    open(path, mode) {
      const inner = sqliteDisk.open(path, mode);
      if (path.includes('.unfinished')) dieAt('looking through');
      return {
        run: (sql, ...bound) => inner.run(sql, ...bound),
        get: (sql, ...bound) => inner.get(sql, ...bound),
        all: (sql, ...bound) => inner.all(sql, ...bound),
        get inTransaction() {
          return inner.inTransaction;
        },
        close: () => inner.close(),
        exec(sql) {
          const isCopying = sql.startsWith('VACUUM INTO');
          if (isCopying) process.stdout.write('copying\n');
          inner.exec(sql);
          if (isCopying) dieAt('copied');
          // Whoever was told is quick or slow: it is not gone on with.
          if (isCopying && step === 'copying') Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
        },
      };
    },
  },
});
process.stdout.write('done\n');
