/**
 * How fast each part cools after a run, and what heat input a window of cooling times allows: at the minimum
 * preheat, where cooling is fastest, at the maximum interpass temperature, where it is slowest, and between.
 * A window is only ever one that a person entered; windows of practice are not shipped.
 */
import { unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import { highAlloy, steelUnknown } from './alloying.ts';
import type { Status, WorkingInput, WorkingTerm } from './answer.ts';
import { type CoolingRow, coolingRows, endsOf } from './cooling-table.ts';
import {
  coolingFormulaThree,
  coolingFormulaTwo,
  coolingSecondsThree,
  coolingSecondsTwo,
  highestCoolingCelsius,
  transitionFormula,
  transitionMillimetres,
} from './cooling-time.ts';
import type { Fact } from './fact.ts';
import { arcEnergyShown, heatInput } from './heat-input.ts';
import { degrees } from './number.ts';
import { type ShapeFactors, shapeFactors } from './shape-factor.ts';

export interface Cooling {
  readonly parts: readonly CoolingOfPart[];
  /** Arc energy without the efficiency k, as ASME IX QW-409.1 counts (second-hand). Absent where heat input is not stated. */
  readonly arcEnergy?: WorkingInput;
  readonly formulas: readonly string[];
  readonly source: string;
  readonly status: Status;
  /** How well the shape factors are known. */
  readonly shapeStatus: Status;
}

export interface CoolingOfPart {
  readonly part: string;
  readonly applicable: 'yes' | 'no';
  /** Why not; empty for yes. */
  readonly reason: string;
  /** Facts to ask for, in words. They may be asked for beside an answer that is complete without them. */
  readonly missing: readonly string[];
  readonly flags: readonly string[];
  readonly inputs: readonly WorkingInput[];
  /** Working at the minimum preheat: both times and the transition thickness, at each end of the shape factor. */
  readonly terms: readonly WorkingTerm[];
  /** From the minimum preheat up to the maximum interpass temperature. Empty where not applicable. */
  readonly rows: readonly CoolingRow[];
}

/** `minimumCelsius`: the minimum preheat that is judged; undefined where nothing governs. */
export function cooling(joint: Joint, minimumCelsius: number | undefined): Cooling {
  const energy = arcEnergyShown(joint);
  return {
    parts: joint.parts.map((part) => coolingOfPart(joint, part, minimumCelsius)),
    ...(energy === undefined ? {} : { arcEnergy: energy }),
    formulas: [coolingFormulaThree, coolingFormulaTwo, transitionFormula],
    source: 'EN 1011-2:2001 annex D; SEW 088',
    status: 'verified',
    shapeStatus: 'from memory',
  };
}

function coolingOfPart(joint: Joint, part: Part, minimumCelsius: number | undefined): CoolingOfPart {
  const units = unitsOf(joint);
  const q = heatInput(joint);
  const shape = joint.weldShape === undefined ? undefined : shapeFactors[joint.weldShape];
  const inputs = inputsOf(joint, part, minimumCelsius, q, shape);
  const silent = { part: part.id, applicable: 'no' as const, missing: [], flags: [], inputs, terms: [], rows: [] };
  const high = highAlloy(part);
  if (high !== undefined) {
    return { ...silent, reason: `${high}; the formulas hold for unalloyed and low-alloy steel only` };
  }
  const missing = [
    ...(shape === undefined ? ['the shape of the weld (run on plate, butt weld, fillet)'] : []),
    ...(minimumCelsius === undefined ? ['the minimum preheat, which nothing governs yet'] : []),
    ...(q.known || joint.coolingSeconds !== undefined ? [] : [q.ask]),
  ];
  if (shape === undefined || minimumCelsius === undefined || missing.length > 0) {
    return { ...silent, missing, reason: `cannot be computed yet; needed: ${missing.join('; ')}` };
  }
  if (minimumCelsius >= highestCoolingCelsius) {
    return {
      ...silent,
      reason: `${degrees(minimumCelsius, units)} before the run is not below ${degrees(highestCoolingCelsius, units)}, where the formulas end`,
    };
  }
  return {
    ...silent,
    applicable: 'yes',
    reason: '',
    missing: q.known ? [] : [q.ask],
    flags: flagsOf(joint, part, shape),
    terms: q.known ? termsOf(part, minimumCelsius, q.input.value, shape) : [],
    rows: coolingRows(joint, part, minimumCelsius, q.known ? q.input.value : undefined, shape),
  };
}

function inputsOf(
  joint: Joint,
  part: Part,
  minimumCelsius: number | undefined,
  q: Fact,
  shape: ShapeFactors | undefined,
): WorkingInput[] {
  const of = (name: string, value: number, unit: string, from: string): WorkingInput => ({ name, value, unit, from });
  return [
    ...(q.known ? [q.input] : []),
    ...(minimumCelsius === undefined ? [] : [of('Tp', minimumCelsius, '°C', 'minimum preheat that is judged')]),
    of('d', part.thicknessMillimetres, 'mm', 'thickness of the part'),
    ...(shape === undefined
      ? []
      : [
          ...unique(shape.two).map((value) => of('F2', value, '', `${joint.weldShape}, from memory`)),
          of('F3', shape.three, '', `${joint.weldShape}, from memory`),
        ]),
  ];
}

function termsOf(part: Part, celsius: number, q: number, shape: ShapeFactors): WorkingTerm[] {
  const ends = endsOf(part, celsius, shape);
  const named = (name: string, two: number): string => (ends.length > 1 ? `${name}, F2 ${two}` : name);
  return [
    term('three-dimensional', coolingFormulaThree, coolingSecondsThree(ends[0]!, q), 's'),
    ...ends.map((at) => term(named('two-dimensional', at.shapeTwo), coolingFormulaTwo, coolingSecondsTwo(at, q), 's')),
    ...ends.map((at) =>
      term(named('transition thickness', at.shapeTwo), transitionFormula, transitionMillimetres(at, q), 'mm'),
    ),
  ];
}

function flagsOf(joint: Joint, part: Part, shape: ShapeFactors): string[] {
  return [
    ...(steelUnknown(part)
      ? [`nothing says what steel part ${part.id} is; the formulas hold for unalloyed and low-alloy steel only`]
      : []),
    ...(shape.two.lowest < shape.two.highest
      ? [`F2 of this weld is given as ${shape.two.lowest} to ${shape.two.highest}; both ends are carried`]
      : []),
    ...(joint.procedure?.interpassMaximumCelsius === undefined
      ? ['no maximum interpass temperature is stated; two steps above the minimum are shown instead']
      : []),
  ];
}

const term = (name: string, formula: string, value: number, unit: string): WorkingTerm => ({
  name,
  formula,
  value,
  unit,
});
const unique = ({ lowest, highest }: ShapeFactors['two']): number[] =>
  lowest === highest ? [lowest] : [lowest, highest];
