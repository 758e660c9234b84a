/** How what acts on a face reaches the cells behind it: through the steel of the outer cells and the film outside. */
import { type FaceCondition, type Field, fieldConductivity } from './field.ts';

const stefanBoltzmann = 5.670374419e-8;
const kelvinAtZero = 273.15;

export interface Link {
  /** From the level of the outer cells to what acts on the face, W/K per square metre of front. */
  conductance: number;
  flux: number;
}

/** What a face without flux would have: a parabola through its two outer cells that ends level. */
export const level = (first: number, second: number): number => (9 * first - second) / 8;

/** How what acts on a face hangs on the level of the two outer cells, through the steel and, where it loses, the film outside. */
export function link(into: Link, field: Field, face: FaceCondition, cell: number, area: number): void {
  const reach = (3 * field.depth) / field.celsius.length / 8;
  into.flux = area * face.flux;
  into.conductance = 0;
  if (face.kind === 'held') into.conductance = (area * fieldConductivity(field, 0.5 * (cell + face.celsius))) / reach;
  if (face.kind !== 'losing') return;
  const inner = fieldConductivity(field, cell) / reach;
  let film = filmOf(face, cell);
  film = filmOf(face, (inner * cell + film * face.celsius) / (inner + film));
  into.conductance = (area * (inner * film)) / (inner + film);
}

/** Loss coefficient of a face at that temperature, convection and radiation together, W/(m2 K). */
export function filmOf({ celsius, convection, emissivity }: FaceCondition, face: number): number {
  const hot = face + kelvinAtZero;
  const cold = celsius + kelvinAtZero;
  return convection + emissivity * stefanBoltzmann * (hot * hot + cold * cold) * (hot + cold);
}
