/**
 * The whole trip of a line - link, reading, judgement, commit in groups of 100 ms - against splitting and checking
 * the same lines; once with the record on disk, once with one that keeps nothing, so that the part of the disk can
 * be told from ours. Time is moved by hand: work is measured, not waiting.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode } from '../../firmware-protocol/codec/decode.ts';
import type { CommittedItem, Item } from '../../server/ledger/item.ts';
import type { Store } from '../../server/pipeline.ts';
import { openRecord } from '../../server/record/store.ts';
import { createFastClock } from '../../server/station/fast-clock.ts';
import type { BenchSet, Task } from './bench.ts';
import { startTrip, type Trip } from './sixteen-trip.ts';

/** One run: six seconds of a board that speaks ten times a second. */
const linesPerRun = 60;
const someYearsAgo = 1000 * 24 * 3_600_000;

export async function prepareBench(): Promise<BenchSet> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-trip-'));
  const clock = createFastClock(someYearsAgo);
  const record = openRecord({ folder, begin: true, program: 'bench', now: () => clock.wall() });
  const kept = await startTrip(clock, record);
  const forgetting = createFastClock(someYearsAgo);
  const forgotten = await startTrip(forgetting, forgetfulStore());
  const before = record.position();
  let checked = 0;
  let pieces: string[] = [];
  const baseline: Task = {
    name: 'split and check (codec)',
    amount: linesPerRun,
    prepare: () => {
      pieces = forgotten.next(linesPerRun);
    },
    run: () => {
      for (const line of pieces.join('').split('\n')) if (line !== '' && decode(line).ok) checked += 1;
    },
  };
  return {
    title: 'The trip of 16 channels, from bytes to judged and committed',
    unit: 'lines',
    baseline,
    rows: [
      taskOf('link, reading, judgement; nothing kept', forgotten),
      // Ten lines a second come in; the trip must be able to take a hundred.
      { ...taskOf('link, reading, judgement, commit to disk each 100 ms', kept), mostMilliseconds: 10 * linesPerRun },
    ],
    async close() {
      await kept.close();
      await forgotten.close();
      const grown = record.position() - before;
      record.close();
      rmSync(folder, { recursive: true, force: true });
      if (checked === 0 || grown < linesPerRun) throw new Error(`only ${grown} items were committed`);
    },
  };
}

function taskOf(name: string, trip: Trip): Task {
  let pieces: string[] = [];
  return {
    name,
    amount: linesPerRun,
    prepare: () => {
      pieces = trip.next(linesPerRun);
    },
    run: async () => {
      for (const piece of pieces) await trip.play(piece);
    },
  };
}

/** Says of everything that it is committed, and keeps none of it. */
function forgetfulStore(): Store {
  let position = 0;
  const committed = (item: Item): CommittedItem => {
    position += 1;
    return item.type === 'scan' ? { ...item, position } : { ...item, position, seq: position, hash: '' };
  };
  return {
    commit: (items) => ({ items: items.map(committed) }),
    sealDue: () => undefined,
    chains: () => [],
    inputs: () => [],
    entries: () => [],
  };
}
