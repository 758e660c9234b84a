import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { spread } from '../../../server/placing/spread.ts';
import { timeTicks, valueScale } from '../../../web/chart/axis.ts';
import { marksOf } from '../../../web/chart/marks.ts';
import { pictureOf } from '../../../web/chart/picture.ts';
import { lineStyle } from '../../../web/chart/series-style.ts';
import { fromHistory } from '../../../web/chart/tracks.ts';
import { moved, stretchOf, type Window, zoomed } from '../../../web/chart/window.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { momentOf } from './page-fixture.ts';

const minute = 60_000;
const at = (text: string): number => Date.parse(text);

describe('time axis', () => {
  test('ticks stand at round times of the zone', () => {
    const ticks = timeTicks(at('2026-11-25T13:04:10Z'), at('2026-11-25T13:19:10Z'), 8, 'Europe/Berlin');
    expect(ticks.map(({ text }) => text)).toEqual(['14:06', '14:08', '14:10', '14:12', '14:14', '14:16', '14:18']);
  });

  test('half-hour zones too, and midnight names the day', () => {
    const ticks = timeTicks(at('2026-11-25T17:00:00Z'), at('2026-11-25T20:00:00Z'), 4, 'Asia/Kolkata');
    expect(ticks.map(({ text }) => text)).toEqual(['23:00', '26 Nov 2026', '01:00']);
  });

  test('never more ticks than asked for', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60_000, max: 40 * 86_400_000 }),
        fc.integer({ min: 2, max: 12 }),
        (length, most) => {
          const from = at('2026-03-28T22:17:00Z');
          expect(timeTicks(from, from + length, most, 'Europe/Berlin').length).toBeLessThanOrEqual(most + 1);
        },
      ),
    );
  });
});

test('the value axis covers data and limits with room, and is never narrower than 10 K', () => {
  const scale = valueScale([20, 21], [150], 8, 'metric');
  expect(scale.low).toBeLessThan(20);
  expect(scale.high).toBeGreaterThan(150);
  const flat = valueScale([100, 100.2], [], 8, 'metric');
  expect(flat.high - flat.low).toBeGreaterThanOrEqual(10);
});

describe('window', () => {
  const begin = 0;
  const now = 90 * minute;
  const follow: Window = { kind: 'follow', span: 15 * minute };

  test('following keeps the present at its end, all begins at the beginning', () => {
    expect(stretchOf(follow, begin, now)).toEqual({ from: 75 * minute, to: now });
    expect(stretchOf({ kind: 'follow', span: 'all' }, begin, now)).toEqual({ from: begin, to: now });
  });

  test('back and forth again follows the present', () => {
    const back = moved(follow, -1, begin, now);
    expect(stretchOf(back, begin, now)).toEqual({ from: 67.5 * minute, to: 82.5 * minute });
    expect(moved(back, 1, begin, now)).toEqual(follow);
  });

  test('zooming keeps the present while following, the middle otherwise; never below a minute, never beyond all', () => {
    expect(zoomed(follow, 0.5, begin, now)).toEqual({ kind: 'follow', span: 7.5 * minute });
    expect(zoomed(follow, 100, begin, now)).toEqual({ kind: 'follow', span: 'all' });
    const fixed: Window = { kind: 'fixed', from: 20 * minute, to: 40 * minute };
    expect(zoomed(fixed, 0.5, begin, now)).toEqual({ kind: 'fixed', from: 25 * minute, to: 35 * minute });
    expect(stretchOf(zoomed(fixed, 0.001, begin, now), begin, now)).toEqual({ from: 29.5 * minute, to: 30.5 * minute });
  });
});

test('labels keep apart, within bounds, in the order of their places, as near as can be', () => {
  expect(spread([100, 101, 300], 20, 0, 400)).toEqual([90.5, 110.5, 300]);
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -100, max: 600 }), { maxLength: 20 }), (wanted) => {
      const placed = spread(wanted, 20, 0, 500);
      const sorted = placed.map((place, index) => ({ place, want: wanted[index]! })).sort((a, b) => a.place - b.place);
      for (const { place } of sorted) {
        expect(place).toBeGreaterThanOrEqual(-1e-6);
        expect(place).toBeLessThanOrEqual(500 + 1e-6);
      }
      for (let index = 1; index < sorted.length; index += 1) {
        expect(sorted[index]!.place - sorted[index - 1]!.place).toBeGreaterThanOrEqual(20 - 1e-6);
        expect(sorted[index]!.want).toBeGreaterThanOrEqual(sorted[index - 1]!.want);
      }
    }),
  );
});

test('limits, passes and heat lie on the time line with their words', () => {
  const { live, run } = momentOf(girderScript, 72);
  const marks = marksOf(live.assessment, run.entries);
  expect(marks.limits.map(({ text }) => text)).toEqual([
    'minimum 150 °C',
    'interpass maximum 250 °C',
    'highest allowed 300 °C',
  ]);
  expect(marks.moments.map(({ kind, at: when }) => `${kind} ${(when - run.entries[0]!.at) / minute}`)).toEqual([
    'heat on 2',
    'heat off 46',
  ]);
  expect(marks.passes.map(({ text, outside }) => `${text} ${outside}`)).toEqual(['1 false', '2 false']);
});

test('"happened earlier" is drawn where it happened', () => {
  const { live } = momentOf(girderScript, 5);
  const heat = {
    at: 100_000,
    seq: 2,
    who: 'Ada',
    kind: 'heat',
    body: { kind: 'heat', state: 'off', happenedAt: 40_000 },
  };
  expect(marksOf(live.assessment, [heat as never]).moments).toEqual([
    { at: 40_000, kind: 'heat off', text: 'heat off' },
  ]);
});

test('a hidden probe is not drawn, and keeps the colour of its place for the others', () => {
  const { live, run } = momentOf(girderScript, 5);
  const tracks = fromHistory(
    {
      from: 0 as never,
      to: 10 as never,
      stepMilliseconds: 1,
      series: [{ probe: 'A2', steps: [[0, 1000, 1000, 1000, 1000]] }],
    },
    1,
  );
  const picture = pictureOf({
    units: 'metric',
    tracks,
    probes: [
      { probe: 'A1', use: 'zone' },
      { probe: 'A2', use: 'zone' },
    ],
    hidden: new Set(['A1']),
    stretch: { from: 0, to: 10 },
    marks: marksOf(live.assessment, run.entries),
    theme: 'light',
    width: 800,
    height: 300,
    zone: 'UTC',
  });
  expect(picture.lines.map(({ probe, style }) => `${probe} ${style.colour}`)).toEqual([
    `A2 ${lineStyle(1, 'zone', 'light').colour}`,
  ]);
  expect(picture.lines[0]!.end).toEqual({ x: 0, y: 1 });
});

test.each(['light', 'dark'] as const)('no two of twenty zone lines look the same, %s', (theme) => {
  const looks = Array.from({ length: 20 }, (_, index) => JSON.stringify(lineStyle(index, 'zone', theme)));
  expect(new Set(looks).size).toBe(20);
});
