/** How slow a wall is at the temperature it has now, and how long a silence it may bridge. */
import type { Milliseconds } from '../measure/quantity.ts';
import { bounds } from './bounds.ts';
import { meanOf } from './field.ts';
import { diffusivityAt } from './steel/steel.ts';
import type { Wall } from './wall.ts';

/** Slowest time constant, front held, back insulated; of a plate 4 / pi^2 of depth^2 / diffusivity. */
export function timeConstantSeconds({ field, mode }: Wall): number {
  const diffusivity = field.conductivityFactor * diffusivityAt(field.steel, meanOf(field));
  return (mode * field.depth * field.depth) / diffusivity;
}

export const timeConstantOf = (wall: Wall): Milliseconds =>
  Math.round(1000 * timeConstantSeconds(wall)) as Milliseconds;

/** Longest time without a reading of the front that is bridged by a straight line. */
export const bridgedOf = (wall: Wall): Milliseconds =>
  Math.round(
    1000 * Math.max(bounds.bridgedSeconds, bounds.bridgedTimeConstants * timeConstantSeconds(wall)),
  ) as Milliseconds;

/** The time constant, a sum over all cells, is asked for only where the bound in seconds does not answer. */
export const isBridged = (wall: Wall, milliseconds: number): boolean =>
  milliseconds <= bounds.bridgedSeconds * 1000 || milliseconds <= bridgedOf(wall);
