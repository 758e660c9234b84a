/**
 * Minimum preheat and interpass temperature of AWS D1.1 hydrogen control, by restraint, thickness and group. From
 * memory; one cell is verified (high restraint, 1 1/2 to 3 in, group D: 300 F). "<" means that a lower temperature
 * of the part may be enough. The rows are thickness bands from thin to thick: in inches below 3/8, to 3/4, to
 * 1 1/2, to 3, above; in millimetres below 10, to 20, to 38, to 75, above. The columns are the groups A to G.
 */
import type { UnitSystem } from '../../measure/units.ts';
import type { Joint } from '../../weld/joint.ts';
import { lengthIn } from '../job-units.ts';
import { type Group, groups } from './susceptibility.ts';

export type Restraint = NonNullable<Joint['restraint']>;
type Table = Readonly<Record<Restraint, readonly string[]>>;

const fahrenheit: Table = {
  low: [
    '<65 <65 <65 <65 140 280 300',
    '<65 <65  65 140 210 280 300',
    '<65 <65  65 175 230 280 300',
    ' 65  65 100 200 250 280 300',
    ' 65  65 100 200 250 280 300',
  ],
  medium: [
    '<65 <65 <65 <65 160 280 320',
    '<65 <65  65 175 240 290 320',
    '<65  65 165 230 280 300 320',
    ' 65 175 230 265 300 300 320',
    '200 250 280 300 320 320 320',
  ],
  high: [
    '<65 <65 <65 100 230 300 320',
    '<65  65 150 220 280 320 320',
    ' 65 185 240 280 300 320 320',
    '240 265 300 300 320 320 320',
    '240 265 300 300 320 320 320',
  ],
};

const celsius: Table = {
  low: [
    '<20 <20 <20 <20  60 140 150',
    '<20 <20  20  60 100 140 150',
    '<20 <20  20  80 110 140 150',
    ' 20  20  40  95 120 140 150',
    ' 20  20  40  95 120 140 150',
  ],
  medium: [
    '<20 <20 <20 <20  70 140 160',
    '<20 <20  20  80 115 145 160',
    '<20  20  75 110 140 150 160',
    ' 20  80 110 130 150 150 160',
    ' 95 120 140 150 160 160 160',
  ],
  high: [
    '<20 <20 <20  40 110 150 160',
    '<20  20  65 105 140 160 160',
    ' 20  85 115 140 150 160 160',
    '115 130 150 150 160 160 160',
    '115 130 150 150 160 160 160',
  ],
};

/** The first edge belongs to the band above it, the others to the band below. */
const edges: Readonly<Record<UnitSystem, readonly number[]>> = {
  metric: [10, 20, 38, 75],
  inch: [0.375, 0.75, 1.5, 3],
};

export interface Cell {
  /** In the degrees of the system. */
  readonly degrees: number;
  /** A lower temperature of the part may be enough. */
  readonly orLower: boolean;
}

/** Row of the table, 0 to 4, of a thickness in millimetres. */
export function thicknessBand(system: UnitSystem, millimetres: number): number {
  const [first, ...others] = edges[system];
  const length = lengthIn(system, millimetres);
  if (length < first!) return 0;
  return 1 + others.filter((edge) => length > edge).length;
}

export function cellOf(system: UnitSystem, restraint: Restraint, band: number, group: Group): Cell {
  const row = (system === 'metric' ? celsius : fahrenheit)[restraint][band]!;
  const text = row.trim().split(/\s+/)[groups.indexOf(group)]!;
  return { degrees: Number(text.replace('<', '')), orLower: text.startsWith('<') };
}
