/**
 * So many of so many. It becomes a rate only where there are enough of them to bear one, and then with the range that chance alone
 * could make of it: the score interval of Wilson (1927) at 95 %, which also holds near none and near all.
 */

/** Fewer are counted and not made a rate of. Own choice: at 20 a rate is still uncertain by about 20 in 100 to either side. */
export const fewestForRate = 20;

export interface Share {
  readonly count: number;
  readonly of: number;
  /** Each a part of 1; absent below `fewestForRate`. */
  readonly rate?: number;
  readonly from?: number;
  readonly to?: number;
}

/** Of a normal distribution, 95 % to both sides. */
const z = 1.96;

export function shareOf(count: number, of: number): Share {
  if (of < fewestForRate) return { count, of };
  const rate = count / of;
  const middle = rate + (z * z) / (2 * of);
  const half = z * Math.sqrt((rate * (1 - rate)) / of + (z * z) / (4 * of * of));
  const whole = 1 + (z * z) / of;
  return { count, of, rate, from: Math.max(0, (middle - half) / whole), to: Math.min(1, (middle + half) / whole) };
}
