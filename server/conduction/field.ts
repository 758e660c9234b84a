/**
 * The temperatures inside one wall at one instant, as plain data: a copy by structuredClone or through JSON goes on
 * exactly where the original would. Depth 0 is the front. Lengths in metres, areas as parts of the front area, heat
 * in joules per square metre of front.
 */
import type { Steel } from './steel/steel.ts';
import { conductivityAt } from './steel/steel.ts';

export interface Field {
  readonly steel: Steel;
  /** The steel's conductivity is multiplied by this: how the spread between grades is carried. */
  readonly conductivityFactor: number;
  readonly depth: number;
  readonly taper: number;
  /** Temperature of each cell at its middle, now and one step before. */
  celsius: number[];
  before: number[];
  /** Length of the last step in seconds; 0 before the first. */
  lastSeconds: number;
  frontCelsius: number;
  backCelsius: number;
  /** Flux through each face into the wall at the end of the last step, W/m2 of that face. */
  frontFlux: number;
  backFlux: number;
  /** Heat that came in through each face since the beginning, now and one step before. */
  heat: { front: number; back: number; frontBefore: number; backBefore: number };
  /** Kelvin a second that every point loses sideways (sideways.ts); 0 where heat goes straight through. */
  sideways: number;
  /** Extremes of all that the wall began from and was driven with: nothing inside can ever lie beyond. */
  lowest: number;
  highest: number;
}

/** What acts on a face. One form for all kinds, since the innermost loop reads it. */
export interface FaceCondition {
  readonly kind: 'held' | 'losing' | 'flux';
  /** Of the face where it is held, of the surroundings where it loses. */
  readonly celsius: number;
  /** W/(m2 K), and the part of black radiation; 0 unless losing. */
  readonly convection: number;
  readonly emissivity: number;
  /** W/m2 into the wall; 0 unless a flux is given. */
  readonly flux: number;
}

export const held = (celsius: number): FaceCondition => condition('held', celsius, 0, 0, 0);
export const given = (flux: number): FaceCondition => condition('flux', 0, 0, 0, flux);
export const insulated: FaceCondition = condition('flux', 0, 0, 0, 0);
export const losing = (celsius: number, convection: number, emissivity: number): FaceCondition =>
  convection === 0 && emissivity === 0 ? insulated : condition('losing', celsius, convection, emissivity, 0);

function condition(
  kind: FaceCondition['kind'],
  celsius: number,
  convection: number,
  emissivity: number,
  flux: number,
): FaceCondition {
  return { kind, celsius, convection, emissivity, flux };
}

/** A field that lies on a straight line from front to back; the same temperature all through unless a back is given. */
export function createField(
  made: { steel: Steel; depth: number; taper: number; cells: number; conductivityFactor?: number },
  front: number,
  back: number = front,
): Field {
  const celsius = Array.from({ length: made.cells }, (_, cell) => front + ((cell + 0.5) / made.cells) * (back - front));
  return {
    steel: made.steel,
    conductivityFactor: made.conductivityFactor ?? 1,
    depth: made.depth,
    taper: made.taper,
    celsius,
    before: [...celsius],
    lastSeconds: 0,
    frontCelsius: front,
    backCelsius: back,
    frontFlux: 0,
    backFlux: 0,
    heat: { front: 0, back: 0, frontBefore: 0, backBefore: 0 },
    sideways: 0,
    lowest: Math.min(front, back),
    highest: Math.max(front, back),
  };
}

/** Cheap: what never changes is shared. */
export const copyField = (field: Field): Field => ({
  ...field,
  celsius: field.celsius.slice(),
  before: field.before.slice(),
  heat: { ...field.heat },
});

export const areaAt = (field: Field, depth: number): number => Math.max(0, 1 + field.taper * depth);

export function coldestOf({ celsius, frontCelsius, backCelsius }: Field): number {
  let coldest = Math.min(frontCelsius, backCelsius);
  for (let cell = 0; cell < celsius.length; cell += 1) if (celsius[cell]! < coldest) coldest = celsius[cell]!;
  return coldest;
}

export function hottestOf(field: Field): number {
  let hottest = Math.max(field.frontCelsius, field.backCelsius);
  for (const celsius of field.celsius) if (celsius > hottest) hottest = celsius;
  return hottest;
}

/** Mean over the volume. */
export function meanOf({ celsius, depth, taper }: Field): number {
  const spacing = depth / celsius.length;
  let sum = 0;
  let volume = 0;
  for (let cell = 0; cell < celsius.length; cell += 1) {
    const area = 1 + taper * (cell + 0.5) * spacing;
    sum += area * celsius[cell]!;
    volume += area;
  }
  return sum / volume;
}

/** At a depth from 0 to the whole thickness, in metres: a cubic through the four nearest cells, never beyond the two beside it. */
export function celsiusAtDepth(field: Field, depth: number): number {
  const cells = field.celsius.length;
  const at = (depth / field.depth) * cells - 0.5;
  const left = Math.floor(at);
  if (left < 0) return field.frontCelsius + 2 * (at + 0.5) * (field.celsius[0]! - field.frontCelsius);
  if (left >= cells - 1)
    return field.celsius[cells - 1]! + 2 * (at - cells + 1) * (field.backCelsius - field.celsius[cells - 1]!);
  const [b, c] = [field.celsius[left]!, field.celsius[left + 1]!];
  const f = at - left;
  if (left === 0 || left === cells - 2) return b + f * (c - b);
  const [a, d] = [field.celsius[left - 1]!, field.celsius[left + 2]!];
  const cubic = b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)));
  return Math.min(Math.max(cubic, Math.min(b, c)), Math.max(b, c));
}

/** Effective conductivity of the field's steel, W/(m K). */
export const fieldConductivity = (field: Field, celsius: number): number =>
  field.conductivityFactor * conductivityAt(field.steel, celsius);
