/** Laws of the readings: they hold for whatever comes in. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DeciMicrovolt, Instant, MilliCelsius } from '../../server/measure/quantity.ts';
import { thermocoupleTypes, usableRange } from '../../server/measure/thermocouple.ts';
import { coldJunctionRange, junctionOfVoltage } from '../../server/reading/junction.ts';
import { celsiusAt, millivoltsAt } from '../../server/reading/thermocouple.ts';
import { emptyTimeline, place, type Timeline } from '../../server/reading/timeline.ts';
import { temperatureFigure } from '../../server/wording/temperature.ts';

const type = fc.constantFrom(...thermocoupleTypes);
const finite = fc.double({ min: -100, max: 100, noNaN: true });

describe('thermocouples', () => {
  it('any voltage gives a temperature of the function or a reason, and never throws', () => {
    fc.assert(
      fc.property(type, finite, (letter, millivolts) => {
        const found = celsiusAt(letter, millivolts);
        if (!found.ok) return found.reason.includes(`type ${letter}`);
        return Math.abs(millivoltsAt(letter, found.celsius)! - millivolts) < 1e-9;
      }),
    );
  });

  it('a higher voltage is never a lower temperature', () => {
    fc.assert(
      fc.property(type, finite, finite, (letter, a, b) => {
        const low = celsiusAt(letter, Math.min(a, b));
        const high = celsiusAt(letter, Math.max(a, b));
        return !low.ok || !high.ok || low.celsius <= high.celsius + 1e-9;
      }),
    );
  });

  it('what a junction would send comes back to half a step of the wire and a thousandth', () => {
    const cold = fc.integer({ min: 0, max: coldJunctionRange.highest });
    fc.assert(
      fc.property(type, fc.double({ min: 0, max: 1, noNaN: true }), cold, (letter, share, terminal) => {
        const { lowest, highest } = usableRange[letter];
        const celsius = lowest + 0.5 + share * (highest - lowest - 1);
        const exact = millivoltsAt(letter, celsius)! - millivoltsAt(letter, terminal / 1000)!;
        const sent = Math.round(exact * 10_000) as DeciMicrovolt;
        const back = junctionOfVoltage(letter, sent, terminal as MilliCelsius);
        if (back.quality !== 'good') return false;
        // The flattest slope in use is type B's at its lower end, 0.0025 mV/K.
        return (
          Number.isInteger(back.temperature) && Math.abs(back.temperature / 1000 - celsius) < 0.000_05 / 0.0024 + 0.0005
        );
      }),
    );
  });
});

describe('the time line', () => {
  const frames = fc.array(
    fc.record({
      step: fc.integer({ min: 0, max: 20_000 }),
      delay: fc.integer({ min: 0, max: 30_000 }),
      again: fc.boolean(),
    }),
    { maxLength: 80 },
  );
  const firstTick = fc.integer({ min: 0, max: 2 ** 32 - 1 });

  it('measuredAt is an integer, never after arrival, and in the order of the ticks within a boot', () => {
    fc.assert(
      fc.property(firstTick, frames, (first, list) => {
        let timeline: Timeline = emptyTimeline;
        let board = 0;
        let arrived = 1_795_000_000_000;
        let last = Number.NEGATIVE_INFINITY;
        for (const { step, delay } of list) {
          board += step;
          // Lines come in order: one that was held up holds up those behind it.
          arrived = Math.max(arrived, 1_795_000_000_000 + board + delay);
          const placed = place(timeline, {
            board: 'b',
            boot: 1,
            ticks: (first + board) % 2 ** 32,
            resent: false,
            arrivedAt: arrived as Instant,
          });
          timeline = placed.timeline;
          expect(Number.isSafeInteger(placed.measuredAt)).toBe(true);
          expect(placed.measuredAt).toBeLessThanOrEqual(arrived);
          expect(placed.measuredAt).toBeGreaterThanOrEqual(last);
          last = placed.measuredAt;
        }
      }),
    );
  });

  it('lines sent again never come after the newest, and two of one gap keep their order', () => {
    const gap = fc.integer({ min: 5, max: 60 });
    fc.assert(
      fc.property(
        firstTick,
        gap,
        fc.integer({ min: 0, max: 3000 }),
        fc.integer({ min: 0, max: 3000 }),
        (first, missing, early, late) => {
          const at = (seconds: number): number => (first + seconds * 1000) % 2 ** 32;
          let timeline: Timeline = emptyTimeline;
          const put = (seconds: number, arrived: number, resent: boolean): number => {
            const frame = { board: 'b', boot: 1, ticks: at(seconds), resent, arrivedAt: arrived as Instant };
            const placed = place(timeline, frame);
            timeline = placed.timeline;
            return placed.measuredAt;
          };
          put(0, early, false);
          put(1, 1000 + early, false);
          const before = put(2, 2000 + early, false);
          const end = 2 + missing;
          const after = put(end, end * 1000 + Math.max(late, early - missing * 1000), false);
          let last = before;
          for (let seconds = 3; seconds < end; seconds += 1) {
            const measured = put(seconds, end * 1000 + 4000, true);
            expect(measured).toBeGreaterThanOrEqual(last);
            expect(measured).toBeLessThanOrEqual(after);
            last = measured;
          }
        },
      ),
    );
  });
});

describe('a number beside its limit', () => {
  it('is never shown on the other side of it', () => {
    const milli = fc.integer({ min: -60_000, max: 1_400_000 });
    fc.assert(
      fc.property(milli, fc.integer({ min: -2000, max: 2000 }), (limit, off) => {
        const value = limit + off;
        const shown = Number(
          temperatureFigure(value as MilliCelsius, 'metric', { limit: limit as MilliCelsius }).replace('\u2212', '-'),
        );
        const thousandths = Math.round(shown * 1000);
        return Math.sign(thousandths - limit) === Math.sign(off);
      }),
    );
  });
});
