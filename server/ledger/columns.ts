/**
 * Two ways to write a column of integers so that it packs well and stays exact.
 *
 * Steps: each value as its difference from the one before (the first from 0).
 * Runs: value, count, value, count, ... for columns that seldom change; neighbours differ, counts are above 0.
 */
import { CanonicalFailure } from './canonical.ts';

/** Magnitude that a column may hold: the difference of two such values is still a safe integer. */
const magnitudeMaximum = 2 ** 52;

export class StepsWriter {
  readonly steps: number[] = [];
  private last = 0;
  add(value: number, field: string): void {
    if (!Number.isInteger(value) || Math.abs(value) > magnitudeMaximum) {
      throw new CanonicalFailure(field, `${value} is not an integer of at most 2^52`);
    }
    this.steps.push(value - this.last);
    this.last = value;
  }
}

export class RunsWriter {
  readonly runs: number[] = [];
  add(value: number, field: string): void {
    if (!Number.isInteger(value) || value < 0 || value > magnitudeMaximum) {
      throw new CanonicalFailure(field, `${value} is not an integer from 0 to 2^52`);
    }
    const end = this.runs.length;
    if (end > 0 && this.runs[end - 2] === value) this.runs[end - 1]! += 1;
    else this.runs.push(value, 1);
  }
}

/** Values of a column of steps, in place of the steps. */
export const readSteps = (found: unknown, field: string): readonly number[] => {
  const steps = integers(found, field);
  let value = 0;
  for (let index = 0; index < steps.length; index += 1) {
    value += steps[index]!;
    if (value > magnitudeMaximum || value < -magnitudeMaximum) throw new CanonicalFailure(field, 'a value above 2^52');
    steps[index] = value;
  }
  return steps;
};

/** Values of a column of runs; exactly `count` of them, or it throws. */
export const readRuns = (found: unknown, count: number, field: string): readonly number[] => {
  const runs = integers(found, field);
  const values: number[] = [];
  for (let index = 0; index < runs.length; index += 2) {
    const value = runs[index]!;
    const times = runs[index + 1] ?? 0;
    if (value < 0 || times < 1 || values.length + times > count || (index > 0 && runs[index - 2] === value)) {
      throw new CanonicalFailure(field, 'runs that do not fit');
    }
    for (let n = 0; n < times; n += 1) values.push(value);
  }
  if (values.length !== count) throw new CanonicalFailure(field, `${values.length} values where ${count} are needed`);
  return values;
};

const integers = (found: unknown, field: string): number[] => {
  if (!Array.isArray(found)) throw new CanonicalFailure(field, 'a list is missing');
  for (const item of found)
    if (!Number.isSafeInteger(item)) throw new CanonicalFailure(field, 'a list of integers is needed');
  return found;
};
