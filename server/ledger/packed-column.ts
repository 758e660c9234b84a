/**
 * A column of integers as few bits: each value is foretold from those before it, and what it differs by stands as a Rice
 * code. Which way of foretelling and which code is shortest is tried out when writing. Nothing is rounded.
 */
import { codedMaximum, folded, type PieceReader, type PieceWriter, riceLength } from './bits.ts';

type Foretell = (values: readonly number[], at: number) => number;

/** Middle of the last so many, halves up; of all there are where they are fewer. */
const mean =
  (most: number): Foretell =>
  (values, at) => {
    const n = Math.min(at, most);
    let sum = 0;
    for (let back = 1; back <= n; back += 1) sum += values[at - back]!;
    return Math.floor((2 * sum + n) / (2 * n));
  };

/** Where the straight line through the last so many, by least squares, goes on to. */
const trend =
  (most: number): Foretell =>
  (values, at) => {
    const n = Math.min(at, most);
    if (n < 2) return values[at - 1]!;
    let sum = 0;
    for (let back = 1; back <= n; back += 1) sum += (4 * n + 2 - 6 * back) * values[at - back]!;
    return Math.floor(sum / (n * (n - 1)));
  };

/** Their order is that of FORMAT.md: even steps, a level, a slope that changes soon or late. */
const ways: readonly Foretell[] = [trend(2), mean(4), trend(6), trend(20)];
/** Of even steps the second value is told like the first, so that nothing else is left to tell. */
const firstCoded = (way: number): number => (way === 0 ? 2 : 1);
/** Values that are all so much apart are counted in this: a cold junction comes in hundredths of a degree. */
const units = [1, 10] as const;
/** The first value of a column, and how far from it the others may lie, so that every sum is exact. */
const toldMaximum = 2 ** 50;
/** In place of the code: each value is as foretold. */
const noneDiffers = 31;
const longestCode = 30;

/** False where a value is too great for it. `near`: the first value is told as its difference from this. */
export const writeColumn = (writer: PieceWriter, values: readonly number[], near: number): boolean => {
  const [first] = values;
  if (first === undefined) return true;
  if (Math.abs(first - near) > toldMaximum) return false;
  const unit = values.every((value) => (value - first) % units[1] === 0) ? 1 : 0;
  const counted = values.map((value) => (value - first) / units[unit]!);
  if (counted.some((value) => Math.abs(value) > codedMaximum)) return false;
  let best: { readonly way: number; readonly k: number; readonly bits: number; readonly differs: number[] } | undefined;
  for (const [way, foretell] of ways.entries()) {
    const differs: number[] = [];
    for (let at = firstCoded(way); at < counted.length; at += 1) differs.push(counted[at]! - foretell(counted, at));
    const code = codeOf(differs);
    if (code !== undefined && (best === undefined || code.bits < best.bits)) best = { way, differs, ...code };
  }
  if (best === undefined) return false;
  writer.byte((best.way + ways.length * unit) * 32 + best.k);
  writer.signed(first - near);
  if (best.way === 0 && counted.length > 1) writer.signed(counted[1]!);
  writeDiffers(writer, best.differs, best.k);
  return true;
};

export const readColumn = (reader: PieceReader, count: number, near: number): number[] => {
  if (count === 0) return [];
  const head = reader.byte();
  const number = (head >> 5) % ways.length;
  const unit = units[head >> 5 < ways.length ? 0 : 1];
  const k = head % 32;
  const first = near + reader.signed();
  const counted = [0];
  if (number === 0 && count > 1) counted.push(reader.signed());
  for (let at = counted.length; at < count; at += 1) {
    counted.push(ways[number]!(counted, at) + (k === noneDiffers ? 0 : reader.rice(k)));
  }
  for (let at = 0; at < count; at += 1) counted[at] = first + counted[at]! * unit;
  return counted;
};

/** The shortest code of these differences, and its length; undefined where one of them is too great for any. */
export const codeOf = (differs: readonly number[]): { readonly k: number; readonly bits: number } | undefined => {
  let sum = 0;
  for (const each of differs) {
    if (Math.abs(each) > codedMaximum) return undefined;
    sum += folded(each);
  }
  if (sum === 0) return { k: noneDiffers, bits: 0 };
  const middle = Math.max(0, Math.floor(Math.log2(sum / differs.length)));
  let best = { k: 0, bits: Number.POSITIVE_INFINITY };
  for (let k = Math.max(0, middle - 2); k <= Math.min(longestCode, middle + 2); k += 1) {
    const bits = differs.reduce((length, each) => length + riceLength(folded(each), k), 0);
    if (bits < best.bits) best = { k, bits };
  }
  return best.bits === Number.POSITIVE_INFINITY ? undefined : best;
};

export const writeDiffers = (writer: PieceWriter, differs: readonly number[], k: number): void => {
  if (k === noneDiffers) return;
  for (const each of differs) writer.rice(each, k);
};

/** What differs from a course foretold elsewhere; `foretold` from the second value on. */
export const readDiffers = (reader: PieceReader, count: number, k: number): number[] => {
  const differs: number[] = [];
  for (let at = 0; at < count; at += 1) differs.push(k === noneDiffers ? 0 : reader.rice(k));
  return differs;
};
