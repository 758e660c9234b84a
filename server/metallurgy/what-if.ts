/**
 * What if the heat input, the hydrogen, the thickness or the restraint were another? The same requirement worked
 * on joints that differ in that one thing, so that every method takes part and nothing is fitted. Outside its
 * range a method gives no number, and the curve ends there.
 */
import type { Joint } from '../weld/joint.ts';
import type { Acceptance, MethodAnswer, MethodId, Requirement } from './answer.ts';
import { heatInput } from './heat-input.ts';
import { hydrogen } from './hydrogen.ts';
import { methods } from './methods/list.ts';
import { steady } from './number.ts';
import type { Grade } from './range.ts';
import { requirement } from './requirement.ts';

export const variables = ['heat input', 'hydrogen', 'thickness', 'restraint'] as const;
export type Variable = (typeof variables)[number];
type Numeric = Exclude<Variable, 'restraint'>;

/** One value of the variable, and what the joint would ask for then. */
export interface Supposed {
  /** kJ/mm, ml/100 g, mm; of restraint 0, 1, 2 for low, medium, high. */
  readonly value: number;
  readonly methods: readonly SupposedMethod[];
  /** The value that would be judged. Absent where none can be given. */
  readonly governingCelsius?: number;
}

export interface SupposedMethod {
  readonly id: MethodId;
  readonly title: string;
  readonly part: string;
  readonly role: MethodAnswer['role'];
  readonly celsius: number;
  readonly extended: boolean;
  /** Out of a table: it stands still within a band and jumps at its end. */
  readonly tabulated: boolean;
}

export interface WhatIf {
  readonly variable: Variable;
  readonly unit: string;
  /** The joint as it is. Absent where the joint does not state it. */
  readonly working?: Supposed;
  readonly points: readonly Supposed[];
  /** Validated ranges of the variable, as the methods declare them. */
  readonly ranges: readonly ValidatedRange[];
}

export interface ValidatedRange {
  readonly id: MethodId;
  readonly title: string;
  readonly minimum: number;
  readonly maximum: number;
  /** What happens beyond: no number, or a number that has to be accepted. */
  readonly below: Grade;
  readonly above: Grade;
}

/** How strongly a method answers to one variable at the working point. */
export interface Sensitivity {
  readonly id: MethodId;
  readonly title: string;
  readonly part: string;
  readonly role: MethodAnswer['role'];
  readonly variable: Numeric;
  /** The step that the number is for: 0.1 kJ/mm, 1 ml/100 g, 10 mm. */
  readonly per: number;
  readonly unit: string;
  /** Kelvin per step, with its sign. */
  readonly kelvin: number;
  /** At the end of a range only one side can be looked at. */
  readonly side: 'both' | 'below' | 'above';
  /** Of a table: what one whole step more brings, since a table has no slope. */
  readonly stepwise: boolean;
}

const units: Readonly<Record<Variable, string>> = {
  'heat input': 'kJ/mm',
  hydrogen: 'ml/100 g',
  thickness: 'mm',
  restraint: '',
};
/** What a shop can meet; the curve reaches over it, and over the working point. */
const spans: Readonly<Record<Numeric, readonly [least: number, most: number]>> = {
  'heat input': [0.3, 4.5],
  hydrogen: [0.5, 22],
  thickness: [5, 150],
};
const steps: Readonly<Record<Numeric, number>> = { 'heat input': 0.1, hydrogen: 1, thickness: 10 };
const restraints = ['low', 'medium', 'high'] as const;
const pointsMost = 61;

/** The joint with the variable set; of thickness every part gets it. Restraint counts 0, 1, 2. */
export function supposing(joint: Joint, variable: Variable, value: number): Joint {
  switch (variable) {
    case 'heat input':
      return { ...joint, heatInput: { kilojoulesPerMillimetre: value } };
    case 'hydrogen':
      return { ...joint, consumable: { ...joint.consumable, hydrogen: { millilitresPer100Grams: value } } };
    case 'thickness':
      return { ...joint, parts: joint.parts.map((part) => ({ ...part, thicknessMillimetres: value })) };
    case 'restraint':
      return { ...joint, restraint: restraints[value] ?? 'high' };
  }
}

/** The working value in the variable's unit; of thickness the thickest part. Undefined where the joint does not state it. */
export function workingValue(joint: Joint, variable: Variable): number | undefined {
  if (variable === 'thickness') return Math.max(...joint.parts.map((part) => part.thicknessMillimetres));
  if (variable === 'restraint') return joint.restraint === undefined ? undefined : restraints.indexOf(joint.restraint);
  const fact = variable === 'hydrogen' ? hydrogen(joint) : heatInput(joint);
  return fact.known ? fact.input.value : undefined;
}

export function whatIf(joint: Joint, variable: Variable, acceptances: readonly Acceptance[]): WhatIf {
  const value = workingValue(joint, variable);
  const points = valuesOf(variable, value).map((each) =>
    supposed(each, requirement(supposing(joint, variable, each), acceptances)),
  );
  return {
    variable,
    unit: units[variable],
    ...(value === undefined ? {} : { working: supposed(value, requirement(joint, acceptances)) }),
    points,
    ranges: rangesOf(variable),
  };
}

/** For every method with a number at the working point; the strongest first. */
export function sensitivities(joint: Joint, acceptances: readonly Acceptance[]): Sensitivity[] {
  const here = supposed(0, requirement(joint, acceptances));
  return (['heat input', 'hydrogen', 'thickness'] as const)
    .flatMap((variable) => {
      const value = workingValue(joint, variable);
      if (value === undefined) return [];
      // Thickness moves part by part: a joint of unequal parts keeps their difference.
      const at = (change: number): Supposed | undefined =>
        value + change <= 0
          ? undefined
          : supposed(value + change, requirement(moved(joint, variable, change), acceptances));
      const small = steps[variable] / 20;
      const [below, above, whole] = [at(-small), at(small), at(steps[variable])];
      return here.methods.flatMap((method) =>
        method.tabulated ? jump(method, whole, variable) : slope(method, below, above, small, variable),
      );
    })
    .sort((a, b) => Math.abs(b.kelvin) - Math.abs(a.kelvin));
}

function moved(joint: Joint, variable: Numeric, change: number): Joint {
  if (variable !== 'thickness') return supposing(joint, variable, workingValue(joint, variable)! + change);
  const parts = joint.parts.map((part) => ({ ...part, thicknessMillimetres: part.thicknessMillimetres + change }));
  return { ...joint, parts };
}

/** A slope across the end of a band would be a jump divided by next to nothing. */
function jump(here: SupposedMethod, whole: Supposed | undefined, variable: Numeric): Sensitivity[] {
  const then = whole === undefined ? undefined : sameMethod(whole, here);
  if (then === undefined) return [];
  const { id, title, part, role, celsius } = here;
  const kelvin = steady(then.celsius - celsius);
  const [per, unit] = [steps[variable], units[variable]];
  return [{ id, title, part, role, variable, per, unit, kelvin, side: 'above', stepwise: true }];
}

function slope(
  here: SupposedMethod,
  below: Supposed | undefined,
  above: Supposed | undefined,
  small: number,
  variable: Numeric,
): Sensitivity[] {
  const low = below === undefined ? undefined : sameMethod(below, here);
  const high = above === undefined ? undefined : sameMethod(above, here);
  if (low === undefined && high === undefined) return [];
  const from = low?.celsius ?? here.celsius;
  const to = high?.celsius ?? here.celsius;
  const over = (low === undefined ? 0 : small) + (high === undefined ? 0 : small);
  const { id, title, part, role } = here;
  const kelvin = steady(((to - from) / over) * steps[variable]);
  const side = low === undefined ? 'above' : high === undefined ? 'below' : 'both';
  return [
    { id, title, part, role, variable, per: steps[variable], unit: units[variable], kelvin, side, stepwise: false },
  ];
}

const sameMethod = ({ methods }: Supposed, { id, part }: SupposedMethod): SupposedMethod | undefined =>
  methods.find((one) => one.id === id && one.part === part);

function supposed(value: number, answer: Requirement): Supposed {
  const { preheatMinimumCelsius } = answer.governing;
  return {
    value,
    methods: answer.methods.flatMap(({ id, title, part, role, applicable, tabulated, computedCelsius: celsius }) =>
      celsius === undefined ? [] : [{ id, title, part, role, celsius, extended: applicable === 'extended', tabulated }],
    ),
    ...(preheatMinimumCelsius === undefined ? {} : { governingCelsius: preheatMinimumCelsius }),
  };
}

function valuesOf(variable: Variable, working: number | undefined): number[] {
  if (variable === 'restraint') return restraints.map((_, index) => index);
  const [least, most] = spans[variable];
  const low = Math.min(least, working ?? least);
  const high = Math.max(most, working ?? most);
  const even = Array.from({ length: pointsMost }, (_, index) =>
    steady(low + ((high - low) * index) / (pointsMost - 1)),
  );
  const ends = rangesOf(variable).flatMap(({ minimum, maximum }) => [minimum, maximum]);
  return [...new Set([...even, ...ends, ...(working === undefined ? [] : [steady(working)])])].sort((a, b) => a - b);
}

/** Letters that the formulas use for the variable. */
const symbols: Readonly<Record<Numeric, readonly string[]>> = {
  'heat input': ['Q'],
  hydrogen: ['HD', 'H'],
  thickness: ['d', 't'],
};

const rangesOf = (variable: Variable): ValidatedRange[] =>
  variable === 'restraint'
    ? []
    : methods.flatMap(({ id, title, range }) =>
        range
          .filter(({ symbol }) => symbols[variable].includes(symbol))
          .map(({ minimum, maximum, below, above }) => ({ id, title, minimum, maximum, below, above })),
      );
