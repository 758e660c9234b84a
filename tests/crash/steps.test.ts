/**
 * Every step that the record takes on the disk fails once: without effect, with effect, and with a disk
 * that stays dead for a while. Whatever happens, what was acknowledged is there, nothing is there in
 * part, nothing twice, and the listeners have heard exactly what is there.
 */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { CommittedItem, Item } from '../../server/ledger/item.ts';
import { limits } from '../../server/measure/limits.ts';
import { RecordFailure, RecordRefusal } from '../../server/record/failure.ts';
import { inspectRecord } from '../../server/record/inspection.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { openRecord } from '../../server/record/store.ts';
import { DiskError, type Fault, faults, faultyDisk } from '../support/faulty-disk.ts';
import { at, bench, note, opened, scanItem, temporaryFolder } from '../support/record.ts';

const before: Item[] = [opened(0), scanItem(1), scanItem(2), scanItem(1, 'joint-2')];
const items: Item[] = [scanItem(3), note(4, 'x'), scanItem(5), note(5, 'y', 'joint-2'), scanItem(6)];
const everything = { limit: 5000 };

const lay = (found: readonly CommittedItem[]): unknown[] =>
  found.map((item) => (item.type === 'scan' ? [item.chain, item.scan.sequence] : [item.chain, item.body]));
const laid = (given: readonly Item[]): unknown[] =>
  given.map((item) => (item.type === 'scan' ? [item.chain, item.scan.sequence] : [item.chain, item.body]));

/** The work with a failure at each of its steps in turn, until it has fewer steps than that. */
const atEachStep = (run: (step: number) => boolean): number => {
  for (let step = 1; step < 500; step += 1) if (!run(step)) return step - 1;
  throw new Error('the work takes more than 500 steps');
};

const prepared = () => {
  const disk = faultyDisk();
  const bed = bench(disk);
  bed.store.commit(before);
  const heard: CommittedItem[] = [];
  bed.store.onCommit((kept) => heard.push(...kept));
  return { disk, bed, heard };
};

const failureOf = (work: () => unknown): RecordFailure | undefined => {
  try {
    work();
    return undefined;
  } catch (error) {
    if (error instanceof RecordFailure) return error;
    throw error;
  }
};

describe.each<Fault>(faults)('a step fails: %s', (fault) => {
  test('a commit, handed in again until it is kept, is kept once', { timeout: 120_000 }, () => {
    const outcomes = new Set<string>();
    const steps = atEachStep((step) => {
      const { disk, bed, heard } = prepared();
      disk.plan(step, fault);
      const failure = failureOf(() => bed.store.commit(items));
      const struck = disk.heal();
      outcomes.add(failure?.kept ?? 'kept');
      if (failure?.kept === 'no') expect(lay(bed.store.after(0, everything))).toEqual(laid(before));
      if (failure !== undefined) bed.store.commit(items);
      expect(lay(bed.store.after(0, everything))).toEqual(laid([...before, ...items]));
      expect(heard).toEqual(bed.store.after(before.length, everything));
      bed.reopen();
      expect(bed.store.after(before.length, everything)).toEqual(heard);
      expect(inspectRecord(bed.folder).firstBad).toBeUndefined();
      return struck;
    });
    expect(steps).toBeGreaterThan(15);
    const expected = {
      before: ['kept', 'no'],
      after: ['kept', 'no'],
      'dead before': ['kept', 'no'],
      'dead after': ['kept', 'no', 'unknown'],
    };
    expect([...outcomes].sort()).toEqual(expected[fault]);
  });

  test('a commit given up, and another one instead: no hole, no half', { timeout: 120_000 }, () => {
    const other: Item[] = [note(9, 'after the failure')];
    atEachStep((step) => {
      const { disk, bed, heard } = prepared();
      disk.plan(step, fault);
      const failure = failureOf(() => bed.store.commit(items));
      const struck = disk.heal();
      bed.store.commit(other);
      const found = bed.store.after(before.length, everything);
      expect(heard).toEqual(found);
      const kept = failure === undefined || (failure.kept === 'unknown' && found.length > other.length);
      expect(lay(found)).toEqual(laid(kept ? [...items, ...other] : other));
      expect(inspectRecord(bed.folder).firstBad).toBeUndefined();
      return struck;
    });
  });

  test('sealing: what was read before is read after, and the next sealing makes good', { timeout: 120_000 }, () => {
    const due = at(limits.sealAfterMilliseconds + 5000);
    atEachStep((step) => {
      const { disk, bed } = prepared();
      const tail = bed.store.after(0, everything);
      disk.plan(step, fault);
      failureOf(() => bed.store.sealDue(due));
      const struck = disk.heal();
      expect(bed.store.after(0, everything)).toEqual(tail);
      bed.store.sealDue(due);
      expect(bed.store.after(0, everything)).toEqual(tail);
      expect(bed.store.chains().map((head) => head.journalled)).toEqual([0, 0, 0]);
      expect(inspectRecord(bed.folder).firstBad).toBeUndefined();
      return struck;
    });
  });

  test('a document is there whole or not at all', { timeout: 120_000 }, () => {
    const bytes = new Uint8Array(3000).fill(7);
    atEachStep((step) => {
      const { disk, bed } = prepared();
      disk.plan(step, fault);
      failureOf(() => bed.store.putDocument(bytes, 'image/png'));
      const struck = disk.heal();
      const name = bed.store.putDocument(bytes, 'image/png');
      expect(bed.store.document(name)?.bytes).toEqual(bytes);
      bed.store.close();
      expect(inspectRecord(bed.folder).documents).toMatchObject({ kept: 1, altered: [] });
      return struck;
    });
  });

  test('closing: what waits stays safe for the next start', { timeout: 120_000 }, () => {
    atEachStep((step) => {
      const { disk, bed } = prepared();
      const tail = bed.store.after(0, everything);
      disk.plan(step, fault);
      bed.store.close();
      const struck = disk.heal();
      bed.reopen();
      expect(bed.store.after(0, everything)).toEqual(tail);
      expect(inspectRecord(bed.folder).firstBad).toBeUndefined();
      return struck;
    });
  });

  test('a beginning that fails is refused, and can be begun again', { timeout: 120_000 }, () => {
    atEachStep((step) => {
      const disk = faultyDisk();
      const folder = join(temporaryFolder(), 'record');
      const open = () => openRecord({ folder, begin: true, program: 'test 1', now: () => at(0), disk });
      disk.plan(step, fault);
      try {
        open().close();
      } catch (error) {
        expect(error).toBeInstanceOf(RecordRefusal);
      }
      const struck = disk.heal();
      open().close();
      const reader = openRecordReadOnly(folder);
      expect(reader.head('station')).toMatchObject({ seq: 1 });
      reader.close();
      return struck;
    });
  });
});

test('a failure says what it is, and names a full disk', () => {
  const { disk, bed } = prepared();
  disk.plan(1, 'dead before', 13);
  const failure = failureOf(() => bed.store.commit(items));
  expect(failure).toMatchObject({ kept: 'no', diskFull: true });
  expect(failure?.message).toContain('The disk is full: make room on it');
  expect(failure?.cause).toBeInstanceOf(DiskError);
  disk.heal();
});
