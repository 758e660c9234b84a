/**
 * Heat through one part over time: the likely temperature of its heated face, its middle and its far face, and the
 * lowest that is possible of its coldest point, which is what is judged. Pure.
 */
import type { SectionCourse } from '../../judgement/inside/section-status.ts';
import type { Part } from '../../weld/part.ts';
import { depthNames } from '../../wording/section-basis.ts';
import type { ReportFacts } from '../facts.ts';
import { type ChartLine, type ChartModel, chartOf, limitsOf } from './chart-model.ts';
import type { Point } from './course.ts';

/** Undefined where nothing was ever computed for the part. */
export const sectionChart = (facts: ReportFacts, course: SectionCourse, form: Part['form']): ChartModel | undefined => {
  if (course.at.length === 0) return undefined;
  const [front, middle, back] = depthNames(form);
  const minimum = limitsOf(facts).filter(({ value }) => value === facts.assessment.limits.preheatMinimum);
  const { from, to } = facts.history;
  return chartOf(
    facts,
    `Through ${course.part}`,
    [
      lineOf(front, 0, atDepth(course, 0), course),
      lineOf(middle, 1, atDepth(course, Math.floor(course.depths / 2)), course),
      lineOf(back, 2, atDepth(course, course.depths - 1), course),
      lineOf(leastName, 4, course.coldest, course),
    ],
    minimum.slice(0, 1),
    { from, to },
  );
};

export const leastName = 'coldest, at least';

const atDepth = ({ at, depths, likely }: SectionCourse, depth: number): number[] =>
  at.map((_, column) => likely[column * depths + depth]!);

/** Broken where columns lie much further apart than they usually do: nothing was computed between them. */
const lineOf = (name: string, style: number, values: readonly number[], { at }: SectionCourse): ChartLine => {
  const apart = at.slice(1).map((each, index) => each - at[index]!);
  const usual = apart.toSorted((a, b) => a - b)[Math.floor(apart.length / 2)] ?? 0;
  const runs: Point[][] = [];
  values.forEach((value, column) => {
    if (column === 0 || apart[column - 1]! > gapFactor * usual) runs.push([]);
    runs.at(-1)!.push([at[column]!, value]);
  });
  return { name, style, runs, gaps: [] };
};

/** Columns are thinned to even times; a wait of three of them is no jitter. */
const gapFactor = 3;
