/** The curve of "what if" as a plain picture: lines broken where a method is silent, the working point, the ends of ranges. */
import { toFahrenheit, toInches, toKilojoulesPerInch, type UnitSystem } from '../../../server/measure/units.ts';
import { degrees, plain } from '../../../server/metallurgy/number.ts';
import type { Variable, WhatIf } from '../../../server/metallurgy/what-if.ts';

export interface CurveLine {
  readonly key: string;
  readonly title: string;
  readonly kind: 'judged' | 'governs' | 'floor' | 'compares';
  /** Runs of points; between runs the method gives no number. */
  readonly runs: readonly (readonly (readonly [x: number, y: number])[])[];
  readonly end: readonly [x: number, y: number];
}
export interface Curve {
  readonly x: readonly [low: number, high: number];
  readonly y: readonly [low: number, high: number];
  readonly lines: readonly CurveLine[];
  readonly working?: { readonly x: number; readonly y?: number; readonly text: string };
  readonly ends: readonly { readonly x: number; readonly text: string }[];
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
}
interface Tick {
  readonly at: number;
  readonly text: string;
}

export const curveOf = (whatIf: WhatIf, units: UnitSystem): Curve => {
  const { points, working, ranges } = whatIf;
  const judged: CurveLine[] = lineOf(
    'judged',
    'value judged',
    'judged',
    points,
    ({ governingCelsius }) => governingCelsius,
  );
  const keys = new Map<string, { title: string; kind: CurveLine['kind'] }>();
  const counted = new Set(points.flatMap(({ methods }) => methods.map(({ part }) => part))).size;
  for (const { methods } of points)
    for (const { id, part, title, role } of methods)
      keys.set(`${id}\n${part}`, { title: counted > 1 ? `${part}: ${title}` : title, kind: kinds[role] });
  const lines = [
    ...judged,
    ...merged(
      [...keys].flatMap(([key, { title, kind }]) =>
        lineOf(
          key,
          title,
          kind,
          points,
          ({ methods }) => methods.find(({ id, part }) => `${id}\n${part}` === key)?.celsius,
        ),
      ),
    ),
  ];
  const xs = points.map(({ value }) => value);
  const ys = lines.flatMap(({ runs }) => runs.flat().map(([, y]) => y));
  const x = [Math.min(...xs), Math.max(...xs)] as const;
  const y = [Math.min(0, ...ys), Math.max(100, ...ys) * 1.05] as const;
  return {
    x,
    y,
    lines,
    ...(working === undefined
      ? {}
      : {
          working: {
            x: working.value,
            ...(working.governingCelsius === undefined ? {} : { y: working.governingCelsius }),
            text: workingText(whatIf, units),
          },
        }),
    ends: ranges.flatMap(({ title, minimum, maximum }) =>
      [minimum, maximum]
        .filter((each) => each > x[0] && each < x[1])
        .map((each) => ({ x: each, text: `${title} at ${variableText(whatIf.variable, each, units)}` })),
    ),
    xTicks: xTicksOf(whatIf, x, units),
    yTicks: ticksBetween(y, (celsius) => (units === 'inch' ? toFahrenheit(celsius) : celsius), 7),
  };
};

/** "1.5 kJ/mm", "2 in", "medium": a value of the variable in words. */
export const variableText = (variable: Variable, value: number, units: UnitSystem): string => {
  if (variable === 'restraint') return ['low', 'medium', 'high'][value] ?? '';
  const { shown, unit } = shownVariable(variable, units);
  return `${plain(shown(value), 3)} ${unit}`;
};

/** From the stored unit to the one that is shown. */
export const shownVariable = (
  variable: Exclude<Variable, 'restraint'>,
  units: UnitSystem,
): { shown: (value: number) => number; unit: string } => {
  if (variable === 'hydrogen') return { shown: (value) => value, unit: 'ml/100 g' };
  if (variable === 'thickness')
    return units === 'inch' ? { shown: toInches, unit: 'in' } : { shown: (value) => value, unit: 'mm' };
  return units === 'inch' ? { shown: toKilojoulesPerInch, unit: 'kJ/in' } : { shown: (value) => value, unit: 'kJ/mm' };
};

/** Parts with one and the same line share it, under the name of the method alone. */
const merged = (lines: readonly CurveLine[]): CurveLine[] => {
  const same = new Map<string, CurveLine>();
  for (const line of lines) {
    const key = JSON.stringify([line.key.split('\n')[0], line.runs]);
    const known = same.get(key);
    same.set(key, known === undefined ? line : { ...known, title: known.title.replace(/^.*?: /, '') });
  }
  return [...same.values()];
};

const kinds = { 'may govern': 'governs', 'code minimum': 'floor', 'comparison only': 'compares' } as const;

const workingText = ({ variable, working }: WhatIf, units: UnitSystem): string =>
  `${variableText(variable, working!.value, units)}: ${working!.governingCelsius === undefined ? 'no minimum' : degrees(working!.governingCelsius, units)}`;

const lineOf = (
  key: string,
  title: string,
  kind: CurveLine['kind'],
  points: WhatIf['points'],
  heightOf: (point: WhatIf['points'][number]) => number | undefined,
): CurveLine[] => {
  const runs: [number, number][][] = [];
  let open = false;
  for (const point of points) {
    const y = heightOf(point);
    if (y === undefined) {
      open = false;
      continue;
    }
    if (!open) runs.push([]);
    open = true;
    runs.at(-1)!.push([point.value, y]);
  }
  const end = runs.at(-1)?.at(-1);
  return end === undefined ? [] : [{ key, title, kind, runs, end }];
};

const xTicksOf = ({ variable }: WhatIf, x: readonly [number, number], units: UnitSystem): Tick[] =>
  variable === 'restraint'
    ? [0, 1, 2].map((at) => ({ at, text: variableText(variable, at, units) }))
    : ticksBetween(x, shownVariable(variable, units).shown, 6);

/** Round ticks of what is shown; the scale between the two is a straight line. */
const ticksBetween = (
  [low, high]: readonly [number, number],
  shown: (value: number) => number,
  most: number,
): Tick[] => {
  const [first, last] = [shown(low), shown(high)];
  const step = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200].find((each) => (last - first) / each <= most) ?? 500;
  const ticks: Tick[] = [];
  for (let count = Math.ceil(first / step); count * step <= last; count += 1) {
    const value = count * step;
    ticks.push({ at: low + ((value - first) / (last - first)) * (high - low), text: plain(value, 2) });
  }
  return ticks;
};
