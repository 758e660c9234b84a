/** One scale of temperature for everything that is set beside each other: every method, the minimum, the maximum, martensite start. */
import { type UnitSystem, unitsOf } from '../../../server/measure/units.ts';
import type { MethodAnswer } from '../../../server/metallurgy/answer.ts';
import type { Explanation } from '../../../server/metallurgy/explanation.ts';
import { degrees } from '../../../server/metallurgy/number.ts';
import { sharedByParts } from '../../../server/metallurgy/shared-by-parts.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { inOrderOfStanding, methodResultText } from '../../../server/wording/requirement.ts';

export interface ScaleRow {
  readonly key: string;
  readonly title: string;
  readonly parts: readonly string[];
  readonly celsius: number;
  readonly shape: 'governs' | 'floor' | 'compares';
  readonly extended: boolean;
  /** "145.3 °C, may govern". */
  readonly words: string;
}
export interface ScaleMark {
  readonly name: string;
  readonly celsius: number;
  readonly text: string;
}
export interface TemperatureScale {
  readonly low: number;
  readonly high: number;
  readonly rows: readonly ScaleRow[];
  readonly marks: readonly ScaleMark[];
  readonly ticks: readonly { readonly celsius: number; readonly text: string }[];
}

export const temperatureScale = (joint: Joint, { requirement, martensiteStart }: Explanation): TemperatureScale => {
  const units = unitsOf(joint);
  const rows = rowsOf(requirement.methods, units);
  const marks = marksOf(joint, requirement.governing.preheatMinimumCelsius, martensiteStart, units);
  const values = [...rows, ...marks].map(({ celsius }) => celsius);
  const low = Math.min(0, ...values);
  const high = Math.max(100, ...values) * 1.04;
  return { low, high, rows, marks, ticks: ticksOf(low, high, units) };
};

/** Those that may govern first, then floors, then what only compares; parts with one answer share a row. */
const rowsOf = (methods: readonly MethodAnswer[], units: UnitSystem): ScaleRow[] =>
  sharedByParts(
    inOrderOfStanding(methods).filter(({ computedCelsius }) => computedCelsius !== undefined),
    ({ id, computedCelsius, standing }) => ({ id, celsius: computedCelsius!, standing }),
  )
    .map(({ one, told: { id, celsius, standing }, parts }) => ({
      key: `${id} ${parts.join(' ')}`,
      title: one.title,
      parts,
      celsius,
      shape: shapes[one.role],
      extended: one.applicable === 'extended',
      words: `${methodResultText(one, units)}, ${one.applicable === 'extended' ? 'beyond its validated range, ' : ''}${standing}`,
    }))
    .sort((a, b) => (a.shape === b.shape ? b.celsius - a.celsius : 0));

const shapes: Readonly<Record<MethodAnswer['role'], ScaleRow['shape']>> = {
  'may govern': 'governs',
  'code minimum': 'floor',
  'comparison only': 'compares',
};

const marksOf = (
  joint: Joint,
  minimum: number | undefined,
  martensite: Explanation['martensiteStart'],
  units: UnitSystem,
): ScaleMark[] => {
  const mark = (name: string, celsius: number): ScaleMark => ({
    name,
    celsius,
    text: `${name} ${degrees(celsius, units)}`,
  });
  const interpass = joint.procedure?.interpassMaximumCelsius;
  // Of several parts and formulas the lowest start: below it hardening has begun somewhere.
  const starts = martensite.flatMap(({ celsius }) => (celsius === undefined ? [] : [celsius]));
  return [
    ...(minimum === undefined ? [] : [mark('minimum judged', minimum)]),
    ...(interpass === undefined ? [] : [mark('maximum interpass', interpass)]),
    ...(starts.length === 0 ? [] : [mark('martensite start, lowest', Math.round(Math.min(...starts)))]),
  ].sort((a, b) => a.celsius - b.celsius);
};

const ticksOf = (low: number, high: number, units: UnitSystem): { celsius: number; text: string }[] => {
  const toShown = (celsius: number): number => (units === 'inch' ? celsius * 1.8 + 32 : celsius);
  const [first, last] = [toShown(low), toShown(high)];
  const step = [20, 50, 100, 200, 500].find((each) => (last - first) / each <= 8) ?? 1000;
  const ticks = [];
  for (let shown = Math.ceil(first / step) * step; shown <= last; shown += step)
    ticks.push({
      celsius: units === 'inch' ? (shown - 32) / 1.8 : shown,
      text: `${shown}`.replace('-', '\u2212'),
    });
  return ticks;
};
