/** The readings of one face since the last step, as sums; and which readings can not be of steel that is heated. */
import type { Instant } from '../measure/quantity.ts';
import { bounds } from './bounds.ts';
import { type Refusal, refuse } from './refusal.ts';
import { capacityAt, conductivityAt, type Steel } from './steel/steel.ts';
import { bridgedOf, isBridged } from './time-constant.ts';
import type { Wall } from './wall.ts';

export interface FaceReadings {
  count: number;
  /** Sums over the readings: seconds since the last step, its square, degrees, and degrees times seconds. */
  seconds: number;
  secondsSquared: number;
  degrees: number;
  degreeSeconds: number;
  lowest: number;
  highest: number;
  firstAt: Instant;
  lastAt: Instant;
  last: number;
  /** False while all that is known is what the wall began from. */
  everRead: boolean;
}

export const noReadings = (lastAt: Instant, last: number, everRead = false): FaceReadings => ({
  count: 0,
  seconds: 0,
  secondsSquared: 0,
  degrees: 0,
  degreeSeconds: 0,
  lowest: last,
  highest: last,
  firstAt: lastAt,
  lastAt,
  last,
  everRead,
});

export function gather(into: FaceReadings, stepBegan: Instant, at: Instant, celsius: number): void {
  const seconds = (at - stepBegan) / 1000;
  if (into.count === 0) into.firstAt = at;
  into.count += 1;
  into.seconds += seconds;
  into.secondsSquared += seconds * seconds;
  into.degrees += celsius;
  into.degreeSeconds += celsius * seconds;
  into.lowest = Math.min(into.lowest, celsius);
  into.highest = Math.max(into.highest, celsius);
  into.lastAt = at;
  into.last = celsius;
  into.everRead = true;
}

/**
 * What the face had at the end of the step: on the straight line through the readings, never beyond all that was read.
 * Readings that lie too close together in time make no line: then the last counts.
 */
export function endOf(readings: FaceReadings, stepBegan: Instant, at: Instant): number {
  const { count, seconds, secondsSquared, degrees, degreeSeconds } = readings;
  if (count < 3 || 2 * (readings.lastAt - readings.firstAt) < at - stepBegan) return readings.last;
  const slope = (count * degreeSeconds - seconds * degrees) / (count * secondsSquared - seconds * seconds);
  const end = (degrees + slope * (count * ((at - stepBegan) / 1000) - seconds)) / count;
  return Math.min(Math.max(end, readings.lowest), readings.highest);
}

/** From where a rise is watched. */
export interface RiseWatch {
  at: Instant;
  celsius: number;
}

/** Of one instant: thousandths of a degree on the faces, degrees of the air. */
export interface Readings {
  readonly front: number | undefined;
  readonly back: number | undefined;
  readonly ambientCelsius: number | undefined;
}

/** Why these readings are not taken; undefined where they are. Moves the watch for the rise on. */
export function readingRefused(
  wall: Wall,
  at: Instant,
  { front, back, ambientCelsius }: Readings,
): Refusal | undefined {
  const { steel } = wall.spec;
  for (const value of [at, front ?? 0, back ?? 0, ambientCelsius ?? 0]) {
    if (!Number.isFinite(value)) return refuse('not a number', 'An instant or a reading is not a number.');
  }
  if ((ambientCelsius ?? 0) > steel.highestCelsius) {
    return refuse('above the range of the properties', `${ambientCelsius} °C is no temperature of air in a shop.`);
  }
  // Two boards may read the two faces at the same instant.
  const isLater =
    at >= wall.at &&
    (front === undefined || at > Math.max(wall.at, wall.front.lastAt)) &&
    (back === undefined || at > wall.back.lastAt || !wall.back.everRead);
  if (!isLater) {
    return refuse('out of order', 'The reading is not later than the one before.');
  }
  for (const reading of [front, back]) {
    if (reading === undefined) continue;
    if (reading > steel.highestCelsius * 1000) {
      return refuse(
        'above the range of the properties',
        `${reading / 1000} °C is above ${steel.highestCelsius} °C, to which the properties of ${steel.name} are known.`,
      );
    }
    if (reading < bounds.partLowestCelsius * 1000) {
      return refuse(
        'below what a part can be',
        `${reading / 1000} °C is colder than a part can be; look at the probe.`,
      );
    }
  }
  const silent = at - wall.front.lastAt;
  if (!isBridged(wall, silent)) {
    return refuse(
      'gap too long',
      `${Math.round(silent / 1000)} s without a reading of the driving face; ${Math.round(bridgedOf(wall) / 1000)} s can be bridged in this wall. Begin anew with what is known now.`,
    );
  }
  return front === undefined ? undefined : riseRefused(wall, at, front / 1000);
}

const pi = Math.PI;

/** Degrees that the strongest heater can add to the surface in that time: a thick wall's surface, and a thin wall as a whole. */
function riseMaximum(steel: Steel, depth: number, celsius: number, seconds: number, flux: number): number {
  const capacity = capacityAt(steel, celsius);
  const surface = (2 * flux * Math.sqrt(seconds / pi)) / Math.sqrt(conductivityAt(steel, celsius) * capacity);
  return surface + (flux * seconds) / (capacity * depth);
}

function riseRefused(wall: Wall, at: Instant, celsius: number): Refusal | undefined {
  const { spec, rise, field } = wall;
  if (!wall.front.everRead) {
    wall.rise = { at, celsius };
    return undefined;
  }
  const flux = spec.heaterWattsPerSquareMetre ?? bounds.heaterWattsPerSquareMetre;
  const seconds = (at - rise.at) / 1000;
  const possible = riseMaximum(spec.steel, field.depth, rise.celsius, seconds, flux) + bounds.riseMarginKelvin;
  if (celsius - rise.celsius > possible) {
    return refuse(
      'rises faster than steel',
      `${Math.round(celsius - rise.celsius)} K in ${Math.round(seconds)} s; ${flux / 1000} kW/m2 heat the face by ${Math.round(possible)} K at most. The probe may touch the heater.`,
    );
  }
  if (celsius <= rise.celsius || seconds >= bounds.riseWindowSeconds) wall.rise = { at, celsius };
  return undefined;
}
