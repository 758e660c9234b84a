/**
 * Where a place would be some minutes on if nothing else were done: between two ends, from its last three minutes alone.
 *
 * A part that is left to itself tends to where it will rest as a sum of decaying exponentials of one sign: its changes over equal times
 * only get smaller (the last change, carried on, is one end), and each keeps at least the share of the one before that the last two show
 * (a falling geometric row is the other end). Where the last changes do not look like that, nothing is said.
 */

import { rules } from '../judgement/rules.ts';
import type { Instant } from '../measure/quantity.ts';

/** Own choice: as long as a trend is watched; below the shorter the noise of a reading would be taken for a trend. */
const longest = 180_000;
const shortest = 60_000;
/** By the noise of readings a change may seem to exceed the one before: by a tenth, or so many thousandths of a kelvin. Own choice. */
const noise = { share: 1.1, millikelvin: 500 };

/** A reading: when, and thousandths of a degree. */
export type Point = readonly [at: Instant, milliCelsius: number];
export interface Course {
  /** Thousandths of a degree at the instant, at least and at most. */
  at(instant: number): { readonly low: number; readonly high: number };
}

/** Undefined where the readings since `undisturbedFrom` are too few, or do not look like a part that is left to itself. */
export function courseOn(points: readonly Point[], now: Instant, undisturbedFrom: Instant): Course | undefined {
  const from = Math.max(undisturbedFrom, now - longest);
  const span = now - from;
  if (span < shortest) return undefined;
  // Means over a twelfth of the time: at its beginning, middle and end, equally far apart.
  const part = span / 12;
  const step = 5.5 * part;
  const means = [0, 1, 2].flatMap((n) => {
    const mean = meanOf(points, from + n * step, from + n * step + part);
    return mean === undefined ? [] : [mean];
  });
  const [first, middle, last] = inTheMiddle(means, from + part / 2, step);
  if (first === undefined || middle === undefined || last === undefined) return undefined;
  const [before, newest] = [middle - first, last - middle];
  const origin = from + 11.5 * part;
  const ends = endsOf(before, newest, step);
  if (ends === undefined) return undefined;
  return {
    at(instant) {
      const steps = (instant - origin) / step;
      const [a, b] = [last + ends.most(steps), last + ends.least(steps)];
      return { low: Math.round(Math.min(a, b)), high: Math.round(Math.max(a, b)) };
    },
  };
}

interface Ends {
  /** Change after so many steps. */
  most(steps: number): number;
  least(steps: number): number;
}

function endsOf(before: number, newest: number, step: number): Ends | undefined {
  const slow = (rules.trendWorthTelling * step) / 60_000;
  if (Math.abs(before) <= slow && Math.abs(newest) <= slow) {
    // Hardly moves: anything between what either change would make of it, and staying.
    const [down, up] = [Math.min(0, before, newest), Math.max(0, before, newest)];
    return { most: (steps) => down * steps, least: (steps) => up * steps };
  }
  const share = newest / before;
  if (!(share > 0 && (share <= noise.share || Math.abs(newest - before) <= noise.millikelvin))) return undefined;
  const kept = Math.min(share, 1);
  return { most: (steps) => newest * steps, least: (steps) => geometric(newest, kept, steps) };
}

/** Sum of the first so many members of a falling row, the last one in proportion. */
function geometric(newest: number, share: number, steps: number): number {
  let [sum, member] = [0, newest * share];
  for (let left = steps; left > 0; left -= 1) {
    sum += member * Math.min(1, left);
    member *= share;
  }
  return sum;
}

/** When, and how warm, on the mean. */
function meanOf(points: readonly Point[], from: number, to: number): [at: number, value: number] | undefined {
  const within = points.filter(([at]) => at >= from && at <= to);
  const sum = (index: 0 | 1): number => within.reduce((total, point) => total + point[index], 0);
  return within.length === 0 ? undefined : [sum(0) / within.length, sum(1) / within.length];
}

/** The means brought to the middle of their times, since readings are not spread evenly over each. */
function inTheMiddle(means: readonly (readonly [at: number, value: number])[], first: number, step: number): number[] {
  const [begin, , end] = means;
  if (begin === undefined || end === undefined) return [];
  const slope = (end[1] - begin[1]) / (end[0] - begin[0]);
  return means.map(([at, value], index) => value + slope * (first + index * step - at));
}
