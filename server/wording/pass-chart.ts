/**
 * Heat input and interpass staircase, pass by pass, as shapes at their places: screen and paper draw the same. Pure.
 */
import type { Limits } from '../judgement/assessment.ts';
import type { PassStatus } from '../judgement/pass-status.ts';
import { kilojoulesPerMillimetre, type MilliCelsius } from '../measure/quantity.ts';
import { toFahrenheit, toKilojoulesPerInch, type UnitSystem } from '../measure/units.ts';
import type { HeatWindow } from '../weld/welding.ts';
import { countedText } from './pass.ts';
import { degreeUnit } from './temperature.ts';

export type Ink = 'grid' | 'limit' | 'value' | 'outside' | 'second' | 'label';
export type Shape =
  | { readonly kind: 'line'; readonly ink: Ink; readonly from: Spot; readonly to: Spot }
  | { readonly kind: 'mark'; readonly ink: Ink; readonly at: Spot }
  | { readonly kind: 'bar'; readonly ink: Ink; readonly at: Spot; readonly width: number; readonly height: number }
  | { readonly kind: 'text'; readonly at: Spot; readonly text: string; readonly anchor: 'start' | 'middle' | 'end' };
type Spot = readonly [x: number, y: number];

export interface PassChart {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  /** The same for somebody who cannot see it. */
  readonly spoken: string;
}

interface Column {
  readonly pass: string;
  readonly value?: number;
  readonly isOutside: boolean;
  /** Another value of the same pass, drawn as a mark. */
  readonly second?: number;
}

interface Limit {
  readonly value: number;
  readonly name: string;
}

/** Undefined where no pass has one. */
export function heatChart(
  passes: readonly PassStatus[],
  window: HeatWindow | undefined,
  units: UnitSystem,
  width: number,
): PassChart | undefined {
  const figure = (perMillimetre: number) => (units === 'inch' ? toKilojoulesPerInch(perMillimetre) : perMillimetre);
  const columns = passes.map(
    ({ pass, heat }): Column => ({
      pass,
      isOutside: heat.state === 'below' || heat.state === 'above',
      ...(heat.energy === undefined ? {} : { value: figure(kilojoulesPerMillimetre(heat.energy)) }),
    }),
  );
  if (columns.every(({ value }) => value === undefined)) return undefined;
  const limits = [
    { stated: window?.minimumKilojoulesPerMillimetre, name: 'at least' },
    { stated: window?.maximumKilojoulesPerMillimetre, name: 'at most' },
  ].flatMap(({ stated, name }) => (stated === undefined ? [] : [{ value: figure(stated), name }]));
  const unit = units === 'inch' ? 'kJ/in' : 'kJ/mm';
  const name = countedText(passes[0]?.heat.counted ?? 'heat input');
  return drawn(`${name} of each pass, ${unit}`, columns, limits, width, 'bars');
}

/** What was measured before each pass, as stairs: interpass, and the coldest required place as marks. */
export function staircase(
  passes: readonly PassStatus[],
  limits: Limits,
  units: UnitSystem,
  width: number,
): PassChart | undefined {
  const figure = (value: MilliCelsius) => (units === 'inch' ? toFahrenheit(value / 1000) : value / 1000);
  const columns = passes.map(
    ({ pass, interpass, coldestAtStart, maximum }): Column => ({
      pass,
      isOutside: maximum === 'not met',
      ...(interpass === undefined ? {} : { value: figure(interpass.temperature) }),
      ...(coldestAtStart === undefined ? {} : { second: figure(coldestAtStart.temperature) }),
    }),
  );
  if (columns.every(({ value, second }) => value === undefined && second === undefined)) return undefined;
  const lines = [
    { stated: limits.preheatMinimum, name: 'minimum' },
    { stated: limits.interpassMaximum, name: 'maximum' },
  ].flatMap(({ stated, name }) => (stated === undefined ? [] : [{ value: figure(stated), name }]));
  return drawn(
    `Before each pass, ${degreeUnit(units)}: interpass as stairs, coldest place as points`,
    columns,
    lines,
    width,
    'stairs',
  );
}

const height = 190;
const left = 44;
const top = 14;
const bottom = height - 24;
/** Room at the right for the names of limits. */
const names = 96;

function drawn(
  title: string,
  columns: readonly Column[],
  limits: readonly Limit[],
  width: number,
  way: 'bars' | 'stairs',
): PassChart {
  const right = width - names;
  const values = [
    ...columns.flatMap(({ value, second }) => [value, second].filter((each) => each !== undefined)),
    ...limits.map(({ value }) => value),
  ];
  const scale = scaleOf(values, way === 'bars');
  const y = (value: number): number => bottom - ((value - scale.low) / (scale.high - scale.low)) * (bottom - top);
  const step = (right - left) / columns.length;
  const x = (index: number): number => left + index * step;
  const grid = scale.ticks.flatMap((tick): Shape[] => [
    { kind: 'line', ink: 'grid', from: [left, y(tick)], to: [right, y(tick)] },
    { kind: 'text', at: [left - 6, y(tick) + 4], text: short(tick), anchor: 'end' },
  ]);
  const every = Math.max(1, Math.ceil((28 * columns.length) / (right - left)));
  const passNames = columns.flatMap(({ pass }, index): Shape[] =>
    index % every === 0
      ? [{ kind: 'text', at: [x(index) + step / 2, height - 8], text: pass.slice(0, 6), anchor: 'middle' }]
      : [],
  );
  const lines = limits.flatMap(({ value, name }): Shape[] => [
    { kind: 'line', ink: 'limit', from: [left, y(value)], to: [right, y(value)] },
    { kind: 'text', at: [right + 6, y(value) + 4], text: `${name} ${short(value)}`, anchor: 'start' },
  ]);
  const drawnValues = way === 'bars' ? bars(columns, x, y, step) : stairs(columns, x, y, step);
  const marks = columns.flatMap(({ second }, index): Shape[] =>
    second === undefined ? [] : [{ kind: 'mark', ink: 'second', at: [x(index) + step / 2, y(second)] }],
  );
  const spoken = `${title}. ${columns.map(({ pass, value }) => `${pass}: ${value === undefined ? 'none' : short(value)}`).join(', ')}. ${limits.map(({ value, name }) => `${name} ${short(value)}`).join(', ')}`;
  return { title, width, height, spoken, shapes: [...grid, ...lines, ...drawnValues, ...marks, ...passNames] };
}

type Along = (index: number) => number;

const bars = (columns: readonly Column[], x: Along, y: Along, step: number): Shape[] =>
  columns.flatMap(({ value, isOutside }, index): Shape[] => {
    if (value === undefined) return [];
    const wide = Math.min(36, step * 0.64);
    const at: Spot = [x(index) + (step - wide) / 2, y(value)];
    return [{ kind: 'bar', ink: isOutside ? 'outside' : 'value', at, width: wide, height: bottom - y(value) }];
  });

/** A tread for each pass that was measured, and a riser only between neighbours: nothing is joined over what is missing. */
const stairs = (columns: readonly Column[], x: Along, y: Along, step: number): Shape[] =>
  columns.flatMap(({ value, isOutside }, index): Shape[] => {
    if (value === undefined) return [];
    const ink: Ink = isOutside ? 'outside' : 'value';
    const tread: Shape = { kind: 'line', ink, from: [x(index), y(value)], to: [x(index) + step, y(value)] };
    const before = columns[index - 1]?.value;
    if (before === undefined) return [tread];
    return [{ kind: 'line', ink: 'value', from: [x(index), y(before)], to: [x(index), y(value)] }, tread];
  });

/** Round steps that hold every value with a little air; bars stand on zero. */
function scaleOf(values: readonly number[], fromZero: boolean) {
  const most = Math.max(...values);
  const least = fromZero ? 0 : Math.min(...values);
  const rough = Math.max(most - least, most * 0.1, 0.001) / 5;
  const power = powerOfTen(rough);
  const step = [1, 2, 5, 10].map((each) => each * power).find((each) => each >= rough)!;
  const low = fromZero ? 0 : Math.floor(least / step) * step;
  const high = Math.ceil((most + step * 0.2) / step) * step;
  const count = Math.round((high - low) / step);
  return { low, high, ticks: Array.from({ length: count + 1 }, (_, index) => low + index * step) };
}

const powerOfTen = (value: number): number => {
  let power = 1;
  while (power > value) power /= 10;
  while (power * 10 <= value) power *= 10;
  return power;
};

/** At most two decimals. */
const short = (value: number): string => String(Number(value.toFixed(2)));
