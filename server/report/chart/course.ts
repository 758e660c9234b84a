/**
 * History steps to lines that can be drawn: fewer points, the same extremes, and a break wherever nothing was
 * measured. A break is never bridged, however narrow.
 */
import type { HistoryStep } from '../../measure/history.ts';
import { type Instant, instant } from '../../measure/quantity.ts';

export type Point = readonly [at: number, value: number];
export interface Span {
  readonly from: Instant;
  readonly to: Instant;
}
export interface Course {
  /** Unbroken runs, each of at least one point. */
  readonly runs: readonly (readonly Point[])[];
  readonly gaps: readonly Span[];
}

type Full = [at: number, first: number, minimum: number, maximum: number, last: number];

export const courseOf = (
  steps: readonly HistoryStep[],
  stepMilliseconds: number,
  within: Span,
  columnsMaximum = 600,
): Course => {
  const inside = steps.filter(([at]) => at + stepMilliseconds > within.from && at < within.to);
  const width = Math.max(1, Math.ceil((within.to - within.from) / stepMilliseconds / columnsMaximum));
  const runs: Full[][] = [];
  const gaps: { from: number; to: number }[] = [];
  let run: Full[] = [];
  let measuredUpTo = within.from as number;
  let brokenAt: number | undefined;
  for (const step of inside) {
    if (step[1] === null) {
      brokenAt ??= Math.min(step[0], measuredUpTo);
      continue;
    }
    // A hole of half a step is jitter of the clock, not a gap; a bad value is one however short.
    if (brokenAt !== undefined || step[0] > measuredUpTo + stepMilliseconds / 2) {
      gaps.push({ from: brokenAt ?? measuredUpTo, to: step[0] });
      brokenAt = undefined;
      if (run.length > 0) runs.push(run);
      run = [];
    }
    run.push(step as Full);
    measuredUpTo = step[0] + stepMilliseconds;
  }
  if (run.length > 0) runs.push(run);
  if (measuredUpTo < within.to - stepMilliseconds / 2) gaps.push({ from: measuredUpTo, to: within.to });
  return {
    runs: runs.map((each) => thin(each, width, stepMilliseconds)),
    gaps: gaps.map(({ from, to }) => ({ from: instant(from), to: instant(to) })),
  };
};

const thin = (run: readonly Full[], width: number, stepMilliseconds: number): Point[] => {
  const points: Point[] = [];
  for (let index = 0; index < run.length; index += width) {
    const column = run.slice(index, index + width);
    const [at, first] = column[0]!;
    const [lastAt, , , , last] = column.at(-1)!;
    const minimum = Math.min(...column.map((each) => each[2]));
    const maximum = Math.max(...column.map((each) => each[3]));
    const end = lastAt + stepMilliseconds;
    const third = (end - at) / 3;
    // Which extreme came first is not known; the nearer one to the first value gives the quieter line.
    const [near, far] = first - minimum <= maximum - first ? [minimum, maximum] : [maximum, minimum];
    points.push([at, first]);
    if (near !== first) points.push([at + third, near]);
    if (far !== near) points.push([at + 2 * third, far]);
    if (index + width >= run.length) points.push([end, last]);
    else if (last !== far) points.push([end - third / 4, last]);
  }
  return points.filter(([, value], index) => {
    const before = points[index - 1];
    const next = points[index + 1];
    return before === undefined || next === undefined || before[1] !== value || next[1] !== value;
  });
};
