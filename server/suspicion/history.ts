/**
 * What is remembered of one probe: its newest readings one by one, the last minutes in blocks, the last hours by the
 * minute. All of it numbers in arrays of fixed length, since it is kept for every probe and copied with the judge's state.
 */
import { numbers } from './numbers.ts';

/** Places in a block. Temperatures in thousandths of a degree; NaN where nothing was read. */
export const inBlock = {
  /** End of the block, and good readings in it. */
  at: 0,
  readings: 1,
  mean: 2,
  /** Mean of the terminals, and of the voltage in tenths of a microvolt. */
  terminals: 3,
  volts: 4,
  /** Noise: root mean square of the second differences, over the root of six; without the two largest, which are one step.
   *  A straight rise has none. */
  noise: 5,
  /** Readings equal to the one before them, by their raw number. */
  repeats: 6,
  /** Readings with the arc on. */
  arc: 7,
  lowest: 8,
  highest: 9,
  /** All values, good or not, and the mean step of those raw numbers that changed. */
  values: 10,
  step: 11,
  /** The smallest of those steps. Some instruments give finer numbers when they are cold. */
  smallestStep: 12,
  /** Runs of equal numbers that ended, the sum of their lengths and of its squares. */
  runs: 13,
  runLengths: 14,
  runSquares: 15,
} as const;
const blockWidth = 16;

/** Places in the running sums. */
const sums = {
  readings: 0,
  temperature: 1,
  terminals: 2,
  terminalsCount: 3,
  volts: 4,
  voltsCount: 5,
  bends: 6,
  bendsCount: 7,
  repeats: 8,
  arc: 9,
  lowest: 10,
  highest: 11,
  values: 12,
  steps: 13,
  stepsCount: 14,
  largestBend: 15,
  secondBend: 16,
  smallestStep: 17,
  runs: 18,
  runLengths: 19,
  runSquares: 20,
} as const;
const sumsWidth = 21;

/** Places among the newest: the last three readings and what the run of equal numbers is. */
export const newest = {
  at: 0,
  temperature: 1,
  before: 2,
  beforeThat: 3,
  code: 4,
  terminals: 5,
  volts: 6,
  same: 7,
  sameSince: 8,
  /** Smallest step between two different readings that was ever seen. */
  step: 9,
  isGood: 10,
} as const;
const newestWidth = 11;

export interface History {
  readonly newest: Float64Array;
  readonly sums: Float64Array;
  /** Rings: the oldest is written over. */
  readonly blocks: Float64Array;
  readonly minutes: Float64Array;
  readonly readings: Float64Array;
  blockCount: number;
  minuteCount: number;
  readingCount: number;
}

export interface NewReading {
  readonly at: number;
  /** NaN where it was not good. */
  readonly temperature: number;
  /** The raw number by which two readings are the same. */
  readonly code: number;
  readonly terminals: number;
  readonly volts: number;
  readonly arc: boolean;
  /** Longest time to the one before for the two to be taken as neighbours, milliseconds. */
  readonly gap: number;
}

export const emptyHistory = (): History => {
  const history: History = {
    newest: new Float64Array(newestWidth).fill(Number.NaN),
    sums: new Float64Array(sumsWidth),
    blocks: new Float64Array(blockWidth * numbers.blocksKept),
    minutes: new Float64Array(minuteWidth * numbers.minutesKept),
    readings: new Float64Array(2 * numbers.readingsKept),
    blockCount: 0,
    minuteCount: 0,
    readingCount: 0,
  };
  history.newest[newest.same] = 0;
  history.newest[newest.step] = Number.POSITIVE_INFINITY;
  beginBlock(history);
  return history;
};

export const copyHistory = (history: History): History => ({
  ...history,
  newest: history.newest.slice(),
  sums: history.sums.slice(),
  blocks: history.blocks.slice(),
  minutes: history.minutes.slice(),
  readings: history.readings.slice(),
});

/** Takes one reading in, and tells how far it lies from the straight line through the two before it (NaN where there are none). */
export function addReading(history: History, reading: NewReading): number {
  const { newest: last, sums: sum } = history;
  const { at, temperature, code, terminals, volts } = reading;
  const isNeighbour = at - last[newest.at]! <= reading.gap;
  if (!isNeighbour) last[newest.before] = last[newest.temperature] = Number.NaN;
  if (code === last[newest.code]) {
    last[newest.same]! += 1;
    sum[sums.repeats]! += 1;
  } else {
    const run = last[newest.same]!;
    sum[sums.runs]! += 1;
    sum[sums.runLengths]! += run;
    sum[sums.runSquares]! += run * run;
    last[newest.same] = 1;
    last[newest.sameSince] = at;
    const step = Math.abs(code - last[newest.code]!);
    if (step < last[newest.step]!) last[newest.step] = step;
    if (isNeighbour && !Number.isNaN(step)) {
      sum[sums.steps]! += step;
      sum[sums.stepsCount]! += 1;
      if (step < sum[sums.smallestStep]!) sum[sums.smallestStep] = step;
    }
  }
  sum[sums.values]! += 1;
  last[newest.code] = code;
  last[newest.at] = at;
  last[newest.beforeThat] = last[newest.before]!;
  last[newest.before] = last[newest.temperature]!;
  last[newest.temperature] = temperature;
  last[newest.terminals] = terminals;
  last[newest.volts] = volts;
  if (reading.arc) sum[sums.arc]! += 1;
  if (!Number.isNaN(temperature)) {
    sum[sums.readings]! += 1;
    sum[sums.temperature]! += temperature;
    if (temperature < sum[sums.lowest]!) sum[sums.lowest] = temperature;
    if (temperature > sum[sums.highest]!) sum[sums.highest] = temperature;
    const place = 2 * (history.readingCount % numbers.readingsKept);
    history.readings[place] = at;
    history.readings[place + 1] = temperature;
    history.readingCount += 1;
  }
  if (!Number.isNaN(terminals)) {
    sum[sums.terminals]! += terminals;
    sum[sums.terminalsCount]! += 1;
  }
  if (!Number.isNaN(volts)) {
    sum[sums.volts]! += volts;
    sum[sums.voltsCount]! += 1;
  }
  const bend = temperature - 2 * last[newest.before]! + last[newest.beforeThat]!;
  if (!Number.isNaN(bend)) {
    const square = bend * bend;
    sum[sums.bends]! += square;
    sum[sums.bendsCount]! += 1;
    if (square > sum[sums.largestBend]!) {
      sum[sums.secondBend] = sum[sums.largestBend]!;
      sum[sums.largestBend] = square;
    } else if (square > sum[sums.secondBend]!) sum[sums.secondBend] = square;
  }
  return bend;
}

/** Closes the running block; the minute too, where one is over. */
export function closeBlock(history: History, at: number): void {
  const { sums: sum, blocks } = history;
  const place = blockWidth * (history.blockCount % numbers.blocksKept);
  const readings = sum[sums.readings]!;
  blocks[place + inBlock.at] = at;
  blocks[place + inBlock.readings] = readings;
  blocks[place + inBlock.mean] = readings === 0 ? Number.NaN : sum[sums.temperature]! / readings;
  blocks[place + inBlock.terminals] = sum[sums.terminals]! / sum[sums.terminalsCount]!;
  blocks[place + inBlock.volts] = sum[sums.volts]! / sum[sums.voltsCount]!;
  blocks[place + inBlock.noise] = noiseOf(sum);
  blocks[place + inBlock.repeats] = sum[sums.repeats]!;
  blocks[place + inBlock.arc] = sum[sums.arc]!;
  blocks[place + inBlock.lowest] = sum[sums.lowest]!;
  blocks[place + inBlock.highest] = sum[sums.highest]!;
  blocks[place + inBlock.values] = sum[sums.values]!;
  blocks[place + inBlock.step] = sum[sums.steps]! / sum[sums.stepsCount]!;
  blocks[place + inBlock.smallestStep] = sum[sums.smallestStep]!;
  blocks[place + inBlock.runs] = sum[sums.runs]!;
  blocks[place + inBlock.runLengths] = sum[sums.runLengths]!;
  blocks[place + inBlock.runSquares] = sum[sums.runSquares]!;
  history.blockCount += 1;
  const lastMinuteAt = minuteAt(history, 0);
  if (readings > 0 && (lastMinuteAt === undefined || at - lastMinuteAt >= numbers.minute)) {
    const to = minuteWidth * (history.minuteCount % numbers.minutesKept);
    history.minutes[to] = at;
    history.minutes[to + 1] = blocks[place + inBlock.mean]!;
    history.minutes[to + 2] = blocks[place + inBlock.terminals]!;
    history.minuteCount += 1;
  }
  beginBlock(history);
}

function noiseOf(sum: Float64Array): number {
  const count = sum[sums.bendsCount]!;
  if (count < fewBends) return Math.sqrt(sum[sums.bends]! / count / 6);
  const rest = Math.max(0, sum[sums.bends]! - sum[sums.largestBend]! - sum[sums.secondBend]!);
  return Math.sqrt(rest / (count - 2) / 6);
}

/** Of fewer none is left out. */
const fewBends = 6;
const minuteWidth = 3;

/** A number of the block so many before the newest closed one; NaN where it is no longer, or never was. */
export function block(history: History, back: number, what: keyof typeof inBlock): number {
  if (back >= history.blockCount || back >= numbers.blocksKept) return Number.NaN;
  const index = (history.blockCount - 1 - back) % numbers.blocksKept;
  return history.blocks[blockWidth * index + inBlock[what]]!;
}

export interface Minute {
  readonly at: number;
  readonly mean: number;
  readonly terminals: number;
}

export const minutesOf = (history: History): number => Math.min(history.minuteCount, numbers.minutesKept);

/** The minute so many before the newest. */
export function minute(history: History, back: number): Minute | undefined {
  if (back >= minutesOf(history)) return undefined;
  const from = minuteWidth * ((history.minuteCount - 1 - back) % numbers.minutesKept);
  return { at: history.minutes[from]!, mean: history.minutes[from + 1]!, terminals: history.minutes[from + 2]! };
}

function minuteAt(history: History, back: number): number | undefined {
  return minute(history, back)?.at;
}

function beginBlock({ sums: sum }: History): void {
  sum.fill(0);
  sum[sums.lowest] = Number.POSITIVE_INFINITY;
  sum[sums.smallestStep] = Number.POSITIVE_INFINITY;
  sum[sums.highest] = Number.NEGATIVE_INFINITY;
}
