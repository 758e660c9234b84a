/** Finds a wave in the newest readings: a deviation from the straight line that comes again alike after a fixed time. */
import type { History } from './history.ts';
import { numbers } from './numbers.ts';

export interface Wave {
  /** Thousandths of a kelvin from the middle to the top. */
  readonly height: number;
  /** From one top to the next, milliseconds. */
  readonly period: number;
}

/** Noise: of the same readings, root mean square of second differences over the root of six. */
export function waveIn(history: History, noise: number): Wave | undefined {
  const { readingsKept: count, waveDeviation } = numbers;
  if (history.readingCount < count || !(extent(history) >= 2 * waveDeviation)) return undefined;
  const values = new Float64Array(count);
  const first = history.readingCount % count;
  for (let index = 0; index < count; index += 1) values[index] = history.readings[2 * ((first + index) % count) + 1]!;
  const firstAt = history.readings[2 * first]!;
  const lastAt = history.readings[2 * ((first + count - 1) % count)]!;
  straighten(values);
  const square = products(values, 0);
  const deviation = Math.sqrt(square);
  if (deviation < waveDeviation || !isThroughout(values, square)) return undefined;
  const longest = Math.min(numbers.waveReadingsLongest, count >> 1);
  for (let lag = 2; lag <= longest; lag += 1) {
    const again = products(values, lag) / square;
    const isTop = again >= products(values, lag - 1) / square && again >= products(values, lag + 1) / square;
    if (again < numbers.waveAlike || !isTop) continue;
    if (2 * lag <= 0.75 * count && products(values, 2 * lag) / square < numbers.waveAlike - 0.2) continue;
    if (products(values, lag >> 1) / square > numbers.waveAgainst) continue;
    // A slow wave is smooth: its second differences are (2 pi / period)2 of it. A wire that floats is rough.
    const bend = ((2 * Math.PI) / lag) * ((2 * Math.PI) / lag) * 0.41;
    if (lag > 5 && noise > 2.5 * bend * deviation + numbers.noise / 5) continue;
    const period = (lag * (lastAt - firstAt)) / (count - 1);
    return period > numbers.waveLongest ? undefined : { height: deviation * Math.SQRT2, period };
  }
  return undefined;
}

function extent({ readings }: History): number {
  let [lowest, highest] = [readings[1]!, readings[1]!];
  for (let at = 3; at < readings.length; at += 2) {
    const value = readings[at]!;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  return highest - lowest;
}

/** Not something that happened once: both halves have it. */
function isThroughout(values: Float64Array, square: number): boolean {
  const half = values.length >> 1;
  return [values.subarray(0, half), values.subarray(half)].every((each) => products(each, 0) >= square / 3);
}

/** Takes the line of least squares out. */
function straighten(values: Float64Array): void {
  const count = values.length;
  const middle = (count - 1) / 2;
  let [sum, turned, spread] = [0, 0, 0];
  for (let index = 0; index < count; index += 1) {
    sum += values[index]!;
    turned += (index - middle) * values[index]!;
    spread += (index - middle) * (index - middle);
  }
  for (let index = 0; index < count; index += 1) values[index]! -= sum / count + ((index - middle) * turned) / spread;
}

/** Mean product of values so many places apart. */
function products(values: Float64Array, lag: number): number {
  let sum = 0;
  for (let index = lag; index < values.length; index += 1) sum += values[index]! * values[index - lag]!;
  return sum / (values.length - lag);
}
