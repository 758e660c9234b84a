/**
 * Whole jobs of a whole station under everything that may go wrong at once. What must hold is checked by what the
 * world itself knows, by SQLite and by SHA-256, not by the station. A failure prints its seed and what happened;
 * PREHEAT_SEEDS=7,8,9 runs others.
 */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { describe, expect, it, onTestFinished } from 'vitest';
import { judgeAll } from '../../server/judgement/judge.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import type { Scan } from '../../server/weld/scan.ts';
import { entryByHand } from '../support/by-hand.ts';
import { everyNumberEnds } from '../support/every-number.ts';
import { minimumCelsius } from './job.ts';
import { createWorld, type Truth, type World } from './world.ts';

const seeds = (process.env.PREHEAT_SEEDS ?? '1,2,3,7').split(',').map(Number);
const simulatedSeconds = Number(process.env.PREHEAT_SIMULATED_SECONDS ?? 400);
/** Three periods, the second in which a line travels, and the one in which time is told. */
const staleMilliseconds = 5000;
/** Eight times the noise that an arc makes on a wire, 4 microvolts at 41 for each kelvin. */
const toleranceKelvin = 0.8;

/** Another connection to the record, and no code of it. */
const onDisk = (folder: string) => {
  const database = new DatabaseSync(join(folder, 'record.sqlite'), { readOnly: true });
  const asked = database.prepare("SELECT value FROM meta WHERE name = 'position'");
  return {
    now: () => Number((asked.get() as { value: unknown } | undefined)?.value ?? 0),
    close: () => database.close(),
  };
};

describe.each(seeds)('a simulated station, seed %i', (seed) => {
  it('keeps its word', { timeout: 120_000 }, async () => {
    const world = await createWorld(seed, onDisk);
    onTestFinished(world.remove);
    try {
      await world.seconds(simulatedSeconds);
      await world.end();
      check(world);
    } catch (cause) {
      throw new Error(`seed ${seed}; what happened:\n${world.fate.join('\n')}`, { cause });
    }
  });
});

let toldReady = 0;

it('was ready at times, so that the word could have been broken', () => {
  expect(toldReady).toBeGreaterThan(50);
});

function check(world: World): void {
  const { assessment } = world.pipeline.run('sim')!;
  world.record.close();
  toldOnlyWhatWasCommitted(world);
  readyOnlyWhenItWas(world);
  everyNoteAsAnswered(world);
  chainsAreWhole(world.folder);

  const reader = openRecordReadOnly(world.folder);
  const inputs = [...reader.inputs('sim')];
  const conclusions = [...reader.conclusions('sim')];
  reader.close();
  const again = judgeAll(inputs).assessment;
  expect({ ...again, at: 0 }).toEqual({ ...assessment, at: 0 });
  expect(conclusions.at(-1)).toMatchObject({ kind: 'verdict', body: { verdict: again.verdict } });
  expect(again.source.kind).toBe('simulated');
  orderHolds(inputs);
  readingsAreTrue(world, inputs);
  const holes = inputs.flatMap((input) =>
    input.type === 'station' && input.event.kind === 'hole' ? [input.event] : [],
  );
  everyNumberEnds(
    inputs.flatMap((input) => (input.type === 'scan' ? [input.scan] : [])),
    holes,
  );
}

/** Nothing is told that another connection does not see at that moment, and each position is told once. */
function toldOnlyWhatWasCommitted({ told }: World): void {
  let last = 0;
  for (const { step, positionOnDisk } of told) {
    expect(step.position).toBeLessThanOrEqual(positionOnDisk);
    for (const { position } of step.items) {
      expect(position).toBeGreaterThan(last);
      last = position;
    }
  }
}

/** "Ready" is told only where every zone probe had, a moment ago, a whole wire, a way to the station, and the heat. */
function readyOnlyWhenItWas({ told, truths }: World): void {
  for (const { step, at } of told) {
    if (!step.assessment.ready) continue;
    toldReady += 1;
    const recent = truths.filter((truth) => truth.at <= at && truth.at > at - staleMilliseconds);
    for (const channel of [1, 2, 3]) {
      const wasGood = (truth: Truth): boolean =>
        truth.connected &&
        !truth.flagged[channel - 1] &&
        truth.celsius[channel - 1]! >= minimumCelsius - toleranceKelvin;
      expect(recent.some(wasGood), `ready at ${at}, T${channel}: ${JSON.stringify(recent)}`).toBe(true);
    }
  }
}

/** What was answered "recorded", or kept, is there once; what was refused is not. */
function everyNoteAsAnswered({ folder, notes }: World): void {
  const reader = openRecordReadOnly(folder);
  const texts = [...reader.entries('sim')].flatMap((entry) =>
    entry.kind === 'note' ? [(entry.body as { text: string }).text] : [],
  );
  reader.close();
  for (const { text, outcome } of notes) {
    const count = texts.filter((each) => each === text).length;
    expect(`${text} ${outcome} ${count}`).toBe(`${text} ${outcome} ${outcome === 'refused' ? 0 : 1}`);
    expect(outcome).not.toBe('waiting');
  }
}

/** By the page that tells others how to check it: each entry holds the hash of the one before. */
function chainsAreWhole(folder: string): void {
  const database = new DatabaseSync(join(folder, 'record.sqlite'), { readOnly: true });
  const rows = database.prepare('SELECT chain, seq, hash, bytes FROM entries ORDER BY chain, seq').all() as {
    chain: string;
    seq: number;
    hash: string;
    bytes: Uint8Array;
  }[];
  database.close();
  const heads = new Map<string, { seq: number; hash: string }>();
  for (const { chain, seq, hash, bytes: stored } of rows) {
    const bytes = entryByHand(stored);
    const before = heads.get(chain) ?? { seq: 0, hash: '0'.repeat(64) };
    const entry = JSON.parse(bytes.toString('utf8')) as { seq: number; previous: string; chain: string };
    expect(entry).toMatchObject({ chain, seq: before.seq + 1, previous: before.hash });
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(hash);
    heads.set(chain, { seq, hash });
  }
  expect([...heads.keys()]).toEqual(['sim', 'station']);
}

/** What comes in is kept in the order of arrival; what the board measured keeps its order, however late it came, and comes once. */
function orderHolds(inputs: Parameters<typeof judgeAll>[0]): void {
  let arrived = 0;
  const scans: Scan[] = [];
  for (const input of inputs) {
    const at = input.type === 'scan' ? input.scan.arrivedAt : input.at;
    expect(at).toBeGreaterThanOrEqual(arrived);
    arrived = at;
    if (input.type !== 'scan') continue;
    expect(input.scan.measuredAt).toBeLessThanOrEqual(input.scan.arrivedAt);
    scans.push(input.scan);
  }
  expect(scans.some(({ late }) => late)).toBe(true);
  scans.sort((a, b) => a.boot - b.boot || a.sequence - b.sequence);
  for (const [index, { boot, sequence, measuredAt }] of scans.entries()) {
    const before = scans[index - 1];
    if (before?.boot !== boot) continue;
    expect(sequence).toBeGreaterThan(before.sequence);
    expect(measuredAt).toBeGreaterThanOrEqual(before.measuredAt);
  }
}

/** A good reading is what the junction had then. Where one came through is the world's chance; that many do is not. */
function readingsAreTrue({ truths }: World, inputs: Parameters<typeof judgeAll>[0]): void {
  let compared = 0;
  for (const input of inputs) {
    if (input.type !== 'scan') continue;
    const near = truths.filter((truth) => Math.abs(truth.at - input.scan.measuredAt) <= 2000);
    for (const { probe, quality, temperature } of input.scan.values) {
      if (quality !== 'good') continue;
      const channel = Number(probe.slice(1)) - 1;
      const celsius = near.map((truth) => truth.celsius[channel]!);
      const where = `${probe} at ${input.scan.measuredAt}, boot ${input.scan.boot}, line ${input.scan.sequence}`;
      expect(temperature! / 1000, where).toBeGreaterThan(Math.min(...celsius) - toleranceKelvin);
      expect(temperature! / 1000, where).toBeLessThan(Math.max(...celsius) + toleranceKelvin);
      compared += 1;
    }
  }
  expect(compared).toBeGreaterThan(simulatedSeconds);
}
