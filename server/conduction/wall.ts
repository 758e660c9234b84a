/**
 * A wall driven by what was measured on its front, and on its back where a probe is there, at the readings' own uneven
 * times. Readings are gathered until a step of the wall's own length is full, a fiftieth of its time constant and never
 * finer than a reading; a straight line through them says what the face had at the end of the step. So noise and a
 * heater that switches are averaged, and a ramp is followed without lag.
 *
 * A wall is plain data and is changed in place by `drive`. `copyWall`, structuredClone and JSON give a copy that goes
 * on exactly where the original would; where a run is split changes nothing. `presentOf` brings a copy up to the last
 * reading. The far side must not be heated; a wall heated alike from both faces is half a wall with an insulated back.
 */
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import { bounds } from './bounds.ts';
import { copyField, createField, type FaceCondition, type Field, held, losing } from './field.ts';
import type { Loss } from './loss.ts';
import { endOf, type FaceReadings, gather, noReadings, type RiseWatch, readingRefused } from './readings.ts';
import { type Refusal, refuse } from './refusal.ts';
import { depthOf, heldModeOf, type Shape, shapeRefused, taperOf } from './shape.ts';
import { diffusivityAt, type Steel } from './steel/steel.ts';
import { step } from './step.ts';
import { isBridged, timeConstantSeconds } from './time-constant.ts';

export interface WallSpec {
  readonly shape: Shape;
  readonly steel: Steel;
  /** The back while no probe measures it, and the air there until it is told with the readings. */
  readonly loss: Loss;
  readonly ambientCelsius: number;
  /** Multiplies the conductivity; 1 unless a spread between grades is carried. */
  readonly conductivityFactor?: number;
  /** Flux above which a rise is not the steel's; the heater of this room's bounds unless stated. */
  readonly heaterWattsPerSquareMetre?: number;
  readonly cells?: number;
}

export interface Wall {
  readonly spec: WallSpec;
  readonly field: Field;
  /** Slowest time constant with the front held, as a part of depth^2 / diffusivity. */
  readonly mode: number;
  readonly stepMilliseconds: number;
  /** Instant of the temperatures in the field. */
  at: Instant;
  front: FaceReadings;
  back: FaceReadings;
  /** The air, as it was told last. */
  ambientCelsius: number;
  rise: RiseWatch;
  /** Fourier number since the start, and the most that can be left of what was not known of the start, as a part of it. */
  fourier: number;
  startLeft: number;
}

export interface Start {
  readonly at: Instant;
  readonly frontCelsius: number;
  /** A straight line from front to back; the same all through where it is absent. */
  readonly backCelsius?: number;
  /** All that lies behind the front, where it may differ from it. */
  readonly insideCelsius?: number;
}

export function createWall(spec: WallSpec, start: Start): Wall | Refusal {
  const refused = shapeRefused(spec.shape) ?? startRefused(spec, start);
  if (refused !== undefined) return refused;
  const depth = depthOf(spec.shape);
  const taper = taperOf(spec.shape);
  const cells = Math.min(spec.cells ?? bounds.cells, bounds.cellsMaximum);
  const { steel, conductivityFactor = 1 } = spec;
  const mode = heldModeOf(depth, taper, cells);
  const seconds = (mode * depth * depth) / diffusivityAt(steel, bounds.stepAtCelsius);
  const field = createField(
    { steel, depth, taper, cells, conductivityFactor },
    start.insideCelsius ?? start.frontCelsius,
    start.insideCelsius ?? start.backCelsius,
  );
  field.frontCelsius = start.frontCelsius;
  field.lowest = Math.min(field.lowest, start.frontCelsius);
  field.highest = Math.max(field.highest, start.frontCelsius);
  return {
    spec,
    field,
    mode,
    stepMilliseconds: (seconds * 1000) / bounds.stepsPerTimeConstant,
    at: start.at,
    front: noReadings(start.at, start.frontCelsius),
    back: noReadings(start.at, field.backCelsius),
    ambientCelsius: spec.ambientCelsius,
    rise: { at: start.at, celsius: start.frontCelsius },
    fourier: 0,
    startLeft: 1,
  };
}

/**
 * Takes the readings of one instant in; the air may be told with them, in degrees, and stays until it is told anew. A reading that is refused changes nothing; the caller says so and goes on,
 * with the next reading or, after a gap that is too long, with a new wall.
 */
export function drive(
  wall: Wall,
  at: Instant,
  front?: MilliCelsius,
  back?: MilliCelsius,
  ambientCelsius?: number,
): Refusal | undefined {
  const refused = readingRefused(wall, at, { front, back, ambientCelsius });
  if (refused === undefined) take(wall, at, front, back, ambientCelsius);
  return refused;
}

/** `drive` without its checks, for walls that are driven side by side: one is asked, all are driven. */
export function take(
  wall: Wall,
  at: Instant,
  front?: MilliCelsius,
  back?: MilliCelsius,
  ambientCelsius: number = wall.ambientCelsius,
): void {
  wall.ambientCelsius = ambientCelsius;
  if (back !== undefined) gather(wall.back, wall.at, at, back / 1000);
  if (front === undefined) return;
  gather(wall.front, wall.at, at, front / 1000);
  if (at - wall.at >= wall.stepMilliseconds) close(wall, at);
}

export const copyWall = (wall: Wall): Wall => ({
  ...wall,
  field: copyField(wall.field),
  front: { ...wall.front },
  back: { ...wall.back },
  rise: { ...wall.rise },
});

/** A copy at the instant of the last reading of the front; the wall itself goes on as if it had not been asked. */
export function presentOf(wall: Wall): Wall {
  const copy = copyWall(wall);
  if (copy.front.count > 0) close(copy, copy.front.lastAt);
  return copy;
}

/** The back is measured while its last reading is no older than what may be bridged. */
export const isBackMeasured = (wall: Wall, at: Instant = wall.at): boolean =>
  wall.back.everRead && isBridged(wall, at - wall.back.lastAt);

/** Ends the step at that instant, which is one of a reading of the front. */
function close(wall: Wall, at: Instant): void {
  const { field } = wall;
  const seconds = (at - wall.at) / 1000;
  const part = seconds / timeConstantSeconds(wall);
  step(field, seconds, held(endOf(wall.front, wall.at, at)), backCondition(wall, at));
  wall.fourier += part * wall.mode;
  // Stays above the exponential, which every machine rounds in its own way; 4 / pi is the share of the slowest mode.
  wall.startLeft /= 1 + part + (part * part) / 2;
  wall.at = at;
  wall.front = noReadings(wall.front.lastAt, wall.front.last, true);
  wall.back = { ...noReadings(wall.back.lastAt, wall.back.last, wall.back.everRead) };
}

function backCondition(wall: Wall, at: Instant): FaceCondition {
  const { loss } = wall.spec;
  if (wall.field.taper * wall.field.depth <= -1) return losing(0, 0, 0);
  return isBackMeasured(wall, at)
    ? held(endOf(wall.back, wall.at, at))
    : losing(wall.ambientCelsius, loss.convection, loss.emissivity);
}

function startRefused({ steel, ambientCelsius }: WallSpec, start: Start): Refusal | undefined {
  const { frontCelsius, backCelsius = frontCelsius, insideCelsius = frontCelsius } = start;
  if (![start.at, frontCelsius, backCelsius, insideCelsius, ambientCelsius].every(Number.isFinite))
    return refuse('not a number', 'Start, temperatures and ambient must all be numbers.');
  const hottest = Math.max(frontCelsius, backCelsius, insideCelsius, ambientCelsius);
  return hottest > steel.highestCelsius
    ? refuse(
        'above the range of the properties',
        `${hottest} °C is above ${steel.highestCelsius} °C, to which the properties of ${steel.name} are known.`,
      )
    : undefined;
}
