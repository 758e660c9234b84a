import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { HistoryView, LiveReading } from '../../../server/screen/contract.ts';
import { blanksOf } from '../../../web/chart/picture.ts';
import { tableOf } from '../../../web/chart/table.ts';
import { fromHistory, isGap, pointsOf, type Tracks, takeReading } from '../../../web/chart/tracks.ts';

const view = (steps: HistoryView['series'][number]['steps'], to = 60_000, step = 10_000): HistoryView => ({
  from: 0 as Instant,
  to: to as Instant,
  stepMilliseconds: step,
  series: [{ probe: 'A1', steps }],
});
const good = (at: number, temperature: number): LiveReading => ({
  probe: 'A1',
  at: at as Instant,
  quality: 'good',
  temperature,
});
const bad = (at: number): LiveReading => ({ probe: 'A1', at: at as Instant, quality: 'open' });
const line = (tracks: Tracks) =>
  pointsOf(tracks.pieces.get('A1') ?? [], tracks.stepMilliseconds, 0, 1e9).map(({ x, y }) => `${x}:${y}`);

test('history is drawn with the extremes of each step upright at its middle, and a gap breaks the line', () => {
  const tracks = fromHistory(
    view([
      [0, 100_000, 90_000, 140_000, 110_000],
      [10_000, null],
      [20_000, 120_000, 120_000, 120_000, 120_000],
    ]),
    1000,
  );
  expect(line(tracks)).toEqual(['0:100', '5000:90', '5000:140', '9999:110', '10000:null', '20000:120', '29999:120']);
});

describe('live readings', () => {
  const empty = () => fromHistory(view([]), 1000);

  test('go into the steps of the history', () => {
    const tracks = fromHistory(view([[0, 100_000, 100_000, 100_000, 100_000]], 5_000), 1000);
    takeReading(tracks, good(6_000, 130_000));
    takeReading(tracks, good(7_000, 105_000));
    takeReading(tracks, good(10_000, 106_000));
    expect(line(tracks)).toEqual(['0:100', '5000:130', '7000:105', '10000:106']);
  });

  test('a fault breaks the line, and a silence longer than three periods does', () => {
    const tracks = fromHistory(view([], 0, 1000), 1000);
    for (const reading of [good(0, 1000), good(1000, 2000), bad(2000), bad(3000), good(4000, 3000), good(20_000, 4000)])
      takeReading(tracks, reading);
    expect(line(tracks)).toEqual(['0:1', '1000:2', '2000:null', '4000:3', '4001:null', '20000:4']);
  });

  test('a reading from before the last step is not drawn out of place, but told', () => {
    const tracks = empty();
    expect(takeReading(tracks, good(30_000, 1000))).toBe(true);
    expect(takeReading(tracks, good(5_000, 9000)), 'it came late').toBe(false);
    expect(line(tracks)).toEqual(['30000:1']);
  });

  test('no extreme is ever lost, whatever the step', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -50_000, max: 900_000 }), { minLength: 1, maxLength: 300 }),
        fc.integer({ min: 1, max: 60 }),
        (values, step) => {
          const tracks = fromHistory(view([], 0, step * 1000), 1000);
          for (const [second, value] of values.entries()) takeReading(tracks, good(second * 1000, value));
          const drawn = pointsOf(tracks.pieces.get('A1')!, tracks.stepMilliseconds, 0, 1e9).map(({ y }) => y!);
          expect(Math.max(...drawn)).toBe(Math.max(...values) / 1000);
          expect(Math.min(...drawn)).toBe(Math.min(...values) / 1000);
          const times = pointsOf(tracks.pieces.get('A1')!, tracks.stepMilliseconds, 0, 1e9).map(({ x }) => x);
          expect(times).toEqual([...times].sort((a, b) => a - b));
        },
      ),
    );
  });

  test('each fault between good readings leaves a gap', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 2, maxLength: 100 }), (faults) => {
        const tracks = fromHistory(view([], 0, 1000), 1000);
        for (const [second, fault] of faults.entries())
          takeReading(tracks, fault ? bad(second * 1000) : good(second * 1000, 5000));
        const runs = faults.join(',').match(/(?<=false,)(true,?)+/g)?.length ?? 0;
        expect((tracks.pieces.get('A1') ?? []).filter(isGap)).toHaveLength(runs);
      }),
    );
  });
});

test('where no probe gave a reading the time is blank, up to the present', () => {
  const tracks = fromHistory(
    view(
      [
        [0, 1, 1, 1, 1],
        [10_000, null],
        [40_000, 1, 1, 1, 1],
      ],
      50_000,
    ),
    1000,
  );
  expect(blanksOf(tracks, { from: 0, to: 100_000 })).toEqual([
    { from: 10_000, to: 40_000 },
    { from: 50_000, to: 100_000 },
  ]);
});

test('the table says the lowest and highest of each stretch, newest first, and where there was no reading', () => {
  const tracks = fromHistory(
    view([
      [0, 100_000, 90_000, 140_000, 110_000],
      [10_000, null],
      [20_000, 149_960, 149_960, 149_960, 149_960],
    ]),
    1000,
  );
  const table = tableOf(tracks, ['A1'], { from: 0, to: 30_000 }, [150_000 as never], 'metric', 4, 'UTC');
  expect(table.rowLength).toBe('10 s');
  expect(table.rows.map((row) => `${row.time} ${row.cells.join(' ')}`)).toEqual([
    '00:00:20 149.9',
    '00:00:10 no reading',
    '00:00:00 90 to 140',
  ]);
});
