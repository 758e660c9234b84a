/** Ticks of the two axes: round times in the zone of the device, round temperatures, and room around the data. */

import type { Instant } from '../../server/measure/quantity.ts';
import { fromFahrenheit, type UnitSystem } from '../../server/measure/units.ts';
import { shownDegrees } from '../../server/wording/temperature.ts';
import { clockMinuteText, clockText, dayText, type Zone, zoneOffset } from '../format/time.ts';

export interface Tick {
  readonly at: number;
  readonly text: string;
}

const second = 1000;
const minute = 60 * second;
const hour = 60 * minute;
const timeSteps = [
  5 * second,
  10 * second,
  30 * second,
  minute,
  2 * minute,
  5 * minute,
  10 * minute,
  15 * minute,
  30 * minute,
  hour,
  2 * hour,
  4 * hour,
  6 * hour,
  12 * hour,
  24 * hour,
];

/** At most `most` ticks at round local times. A tick at midnight names the day. */
export const timeTicks = (from: number, to: number, most: number, zone?: Zone): Tick[] => {
  const step =
    timeSteps.find((each) => (to - from) / each <= most) ?? Math.ceil((to - from) / most / (24 * hour)) * 24 * hour;
  const offset = zoneOffset(from as Instant, zone);
  const ticks: Tick[] = [];
  for (let local = Math.ceil((from + offset) / step) * step; local - offset <= to; local += step) {
    const at = local - offset;
    const shown = at as Instant;
    const time = step < minute ? clockText(shown, zone) : clockMinuteText(shown, zone);
    ticks.push({ at, text: time === '00:00' ? dayText(shown, zone) : time });
  }
  return ticks;
};

export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly Tick[];
}

const valueSteps = [1, 2, 5, 10, 20, 25, 50, 100, 200, 500];

/** Degrees Celsius, with ticks at round degrees of the units of the job. Covers the values and the limits with some room; never narrower than 10 K, so that noise does not look like a fever. */
export const valueScale = (
  values: readonly number[],
  limits: readonly number[],
  most: number,
  units: UnitSystem,
): Scale => {
  const all = [...values, ...limits];
  const lowest = all.length === 0 ? 0 : Math.min(...all);
  const highest = all.length === 0 ? 100 : Math.max(...all);
  const room = Math.max(10, highest - lowest) * 0.08;
  const missing = Math.max(0, 10 - (highest - lowest)) / 2;
  const low = lowest - room - missing;
  const high = highest + room + missing;
  const [first, last] = [low, high].map((each) => shownDegrees(each * 1000, units)) as [number, number];
  const step = valueSteps.find((each) => (last - first) / each <= most) ?? 1000;
  const ticks: Tick[] = [];
  for (let shown = Math.ceil(first / step) * step; shown <= last; shown += step)
    ticks.push({ at: units === 'inch' ? fromFahrenheit(shown) : shown, text: `${shown}`.replace('-', '\u2212') });
  return { low, high, ticks };
};
