/** A disk that is really full, as SQLite finds it: nothing is half-written, and it goes on once there is room. */
import { expect, test } from 'vitest';
import { limits } from '../../server/measure/limits.ts';
import type { Database, Disk } from '../../server/record/database.ts';
import { RecordFailure } from '../../server/record/failure.ts';
import { inspectRecord } from '../../server/record/inspection.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';
import { at, bench, note, opened, scanItem } from '../support/record.ts';

/** The writer's database cannot grow beyond the pages that it is given. */
const smallDisk = (): Disk & { pages(count: number): void } => {
  const writers: Database[] = [];
  return {
    open: (path, mode) => {
      const database = sqliteDisk.open(path, mode);
      if (mode === 'write') writers.push(database);
      return database;
    },
    pages: (count) => writers.at(-1)!.exec(`PRAGMA max_page_count=${count}`),
  };
};

test('commits are refused loudly while it is full, wholly, and taken again afterwards', () => {
  const disk = smallDisk();
  const bed = bench(disk);
  bed.store.commit([opened(0)]);
  const heard: number[] = [];
  bed.store.onCommit((_, position) => heard.push(position));
  disk.pages(60);
  let refused: unknown;
  let n = 0;
  while (refused === undefined && n < 1000) {
    n += 1;
    try {
      bed.store.commit([scanItem(n), note(n, 'x'.repeat(limits.textMaximum)), scanItem(n)]);
    } catch (error) {
      refused = error;
    }
  }
  expect(refused).toBeInstanceOf(RecordFailure);
  expect(refused).toMatchObject({ kept: 'no', diskFull: true });
  const kept = 1 + 3 * (n - 1);
  expect(bed.store.position()).toBe(kept);
  expect(bed.store.after(0, { limit: 5000 })).toHaveLength(kept);
  expect(() => bed.store.putDocument(new Uint8Array(500_000), 'image/png')).toThrow('disk is full');
  disk.pages(100_000);
  const last = bed.store.commit([note(n, 'there is room again')]);
  expect(last.position).toBe(kept + 1);
  expect(heard.at(-1)).toBe(kept + 1);
  bed.store.sealDue(at(10 * limits.sealAfterMilliseconds));
  expect(inspectRecord(bed.folder)).toMatchObject({ ok: true });
});

test('closing on a full disk loses nothing either', () => {
  const disk = smallDisk();
  const bed = bench(disk);
  bed.store.commit([opened(0), ...Array.from({ length: 200 }, (_, n) => scanItem(n))]);
  const tail = bed.store.after(0, { limit: 5000 });
  disk.pages(1);
  bed.reopen();
  expect(bed.store.after(0, { limit: 5000 })).toEqual(tail);
});
