/** Where a place goes on to: the two ends hold what a part does that is left to itself, and nothing is said of one that is not. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { instant } from '../../../server/measure/quantity.ts';
import { courseOn, type Point } from '../../../server/supposing/goes-on.ts';

const minute = 60_000;
const readings = (celsius: (at: number) => number, from: number): Point[] =>
  Array.from({ length: Math.floor(-from / 1000) + 1 }, (_, n): Point => {
    const at = from + n * 1000;
    return [instant(at), Math.round(celsius(at) * 1000)];
  });

test('sums of decaying exponentials of one sign stay between the ends for an hour', () => {
  const member = fc.record({
    kelvin: fc.double({ min: 1, max: 300, noNaN: true }),
    minutes: fc.double({ min: 1, max: 300, noNaN: true }),
  });
  fc.assert(
    fc.property(
      fc.array(member, { minLength: 1, maxLength: 4 }),
      fc.constantFrom(1, -1),
      fc.constantFrom(-600, -180, -121, -90),
      (members, sign, since) => {
        const part = (at: number): number =>
          150 +
          sign * members.reduce((sum, { kelvin, minutes }) => sum + kelvin * Math.exp(-at / (minutes * minute)), 0);
        const course = courseOn(readings(part, since * 1000), instant(0), instant(since * 1000))!;
        expect(course).toBeDefined();
        for (const after of [0, 1, 2, 5, 15, 60]) {
          const { low, high } = course.at(after * minute);
          // Readings are rounded to thousandths, and a mean lies beside the middle of its time by the curve over it.
          const slack = 3 + after * 30 + curve(members, since * 1000);
          expect(part(after * minute) * 1000).toBeGreaterThanOrEqual(low - slack);
          expect(part(after * minute) * 1000).toBeLessThanOrEqual(high + slack);
        }
      },
    ),
    { seed: 20_261_128, numRuns: 80, endOnFailure: true },
  );
});

/** Thousandths of a kelvin: the second change over 15 s, and half a second of the first, where both are largest. */
const curve = (members: readonly { readonly kelvin: number; readonly minutes: number }[], from: number): number =>
  members.reduce((sum, { kelvin, minutes }) => {
    const [rate, value] = [1 / (minutes * 60), kelvin * Math.exp(-from / (minutes * minute))];
    return sum + 1000 * value * (rate * rate * ((15 * 15) / 8) + rate * 0.6);
  }, 0);

test('nothing is said of a place that turns, that runs ever faster, or that was looked at too short', () => {
  const turning = (at: number): number => 150 + (at / minute + 1.5) ** 2;
  expect(courseOn(readings(turning, -180_000), instant(0), instant(-180_000))).toBeUndefined();
  const faster = (at: number): number => 150 + 20 * Math.exp(at / minute);
  expect(courseOn(readings(faster, -180_000), instant(0), instant(-180_000))).toBeUndefined();
  const still = (): number => 150;
  expect(courseOn(readings(still, -59_000), instant(0), instant(-59_000))).toBeUndefined();
  expect(courseOn(readings(still, -60_000), instant(0), instant(-60_000))!.at(minute)).toEqual({
    low: 150_000,
    high: 150_000,
  });
});
