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
import { createPipeline, type Store } from '../../server/pipeline.ts';
import { openRecord } from '../../server/record/store.ts';
import { createFastClock, type FastClock } from '../../server/station/fast-clock.ts';
import { createInProcessPort } from '../../server/wire/in-process-port.ts';
import { openLink } from '../../server/wire/serial-link.ts';
import type { BenchSet, Task } from './bench.ts';
import { boardName, sixteenChannelBoard, sixteenChannelJoint } from './sixteen-channels.ts';

const periodMilliseconds = 100;
/** One run: six seconds of a board that speaks ten times a second. */
const linesPerRun = 60;
const someYearsAgo = 1000 * 24 * 3_600_000;

interface Trip {
  /** Bytes of one period go in, and that much time passes. */
  play(bytes: string): Promise<void>;
  /** What the board says next, in periods. */
  next(): string[];
  close(): Promise<void>;
}

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
      pieces = forgotten.next();
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
      pieces = trip.next();
    },
    run: async () => {
      for (const piece of pieces) await trip.play(piece);
    },
  };
}

async function startTrip(clock: FastClock, store: Store): Promise<Trip> {
  const pipeline = createPipeline({ store, clock, rules: 'bench', station: 'bench' });
  const board = sixteenChannelBoard(periodMilliseconds);
  const cable = createInProcessPort();
  cable.onData((bytes) => board.receive(bytes));
  const onEvent = pipeline.wire;
  const link = openLink({ path: 'bench', openPort: cable.openPort, clock, platform: 'linux', onEvent });
  const play = async (bytes: string): Promise<void> => {
    const expected = link.counts().linesGood + (bytes.match(/\n/g)?.length ?? 0);
    cable.write(bytes);
    for (let turns = 0; link.counts().linesGood < expected && turns < 20; turns += 1) await turn();
    clock.move(periodMilliseconds);
  };

  const isHeard = (): boolean => pipeline.intake.boards.byId.has(boardName);
  for (let tries = 0; !isHeard() && tries < 200; tries += 1) await play(board.advance(periodMilliseconds));
  if (!isHeard()) throw new Error('the board was not heard');
  const opening = pipeline.open(sixteenChannelJoint(), 'Bench');
  clock.move(periodMilliseconds);
  await opening;
  return {
    play,
    next: () => Array.from({ length: linesPerRun }, () => board.advance(periodMilliseconds)),
    async close() {
      await link.close();
      pipeline.close();
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

const turn = (): Promise<void> => new Promise((resume) => setImmediate(resume));
