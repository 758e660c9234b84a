/** Walls whose properties do not change with temperature, so that the exact series hold for them. */
import { createField, type FaceCondition, type Field, insulated } from '../../server/conduction/field.ts';
import type { Steel } from '../../server/conduction/steel/steel.ts';
import { step } from '../../server/conduction/step.ts';

export const unchanging = (conductivity: number, density: number, heatCapacity: number): Steel => ({
  id: 'unchanging',
  name: 'unchanging steel',
  conductivity: [conductivity, 0],
  heatCapacity: [heatCapacity, 0, 0, 0],
  density,
  lowestCelsius: -273,
  highestCelsius: 2000,
  diffusivityBand: 0.2,
  source: 'chosen for the test',
  status: 'entered',
});

/** Diffusivity 12.5 mm2/s, conductivity 50 W/(m K). */
export const plainSteel = unchanging(50, 8000, 500);
export const plainDiffusivity = 50 / (8000 * 500);
export const plainDepth = 0.1;

export const plainField = (celsius: number, more: { taper?: number; cells?: number; back?: number } = {}): Field =>
  createField(
    { steel: plainSteel, depth: plainDepth, taper: more.taper ?? 0, cells: more.cells ?? 40 },
    celsius,
    more.back,
  );

export const secondsOf = (fourier: number): number => (fourier * plainDepth * plainDepth) / plainDiffusivity;

/** Runs for a time in steps of one length; the front may change with the seconds since the beginning. */
export function run(
  field: Field,
  seconds: number,
  steps: number,
  front: FaceCondition | ((at: number) => FaceCondition),
  back: FaceCondition = insulated,
): Field {
  const each = seconds / steps;
  for (let index = 1; index <= steps; index += 1) {
    step(field, each, typeof front === 'function' ? front(index * each) : front, back);
  }
  return field;
}
