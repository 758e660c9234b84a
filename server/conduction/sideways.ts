/**
 * Heat that runs sideways out of the heated band. Driven by the face alone, a wall cannot know of it: what leaves
 * sideways has passed part of the thickness too, but does not show in the rise of the face, so that the far side lags
 * more than the rise tells (by s d^2 / 2 a, s in K/s). Here the mean through the thickness is followed along the plate,
 * from the groove, which heat does not pass, over the band's edge and far into the plate, which is taken as endless and
 * bare: that draws most. The band is heated evenly, just so much that the mean at the probe's place comes out as it is;
 * what of that does neither stay there nor go into the air has left sideways. Where it falls faster than bare steel
 * does, all of the plate does so. For a constant heater and no air the share that stays is
 * (erf((w - x) / 2 sqrt(a t)) + erf((w + x) / 2 sqrt(a t))) / 2; a test holds it.
 */
import { capacityAt, diffusivityAt, type Steel } from './steel/steel.ts';

/** Where the section lies in the heated band, from the edge of the groove. */
export interface Band {
  readonly halfWidthMillimetres: number;
  /** Of the probe nearest to the edge of the band. */
  readonly distanceMillimetres: number;
}

/** Plain data; a copy goes on by itself. */
export interface Sideways {
  readonly steel: Steel;
  readonly ambientCelsius: number;
  /** Widths of the cells along the plate in metres, the first so many of them heated. */
  readonly widths: readonly number[];
  readonly heated: number;
  /** Cells between whose middles the probe lies, and how far on from the first to the second, 0 to 1. */
  readonly place: number;
  readonly share: number;
  /** What bare plate loses to the air, 1/s, both faces together. */
  readonly lossPerSecond: number;
  celsius: number[];
  /** Kelvin a second that leave sideways at the probe's place; below 0 where heat comes in. */
  leaving: number;
}

/** Cells in the band, growth of those beyond, and how far they reach: three times what heat does in a day. Own choice. */
const cellsInBand = 24;
const growth = 1.2;
const reachMetres = 3;

/** Of one bare face in still air around 100 degrees, W/(m2 K): convection about 4, radiation about 7 (as in loss.ts); own choice. */
const bareFace = 10;
const bareAtCelsius = 100;

/** Of a plate so deep, in metres, that is everywhere as warm as given. */
export function createSideways(
  band: Band,
  steel: Steel,
  depth: number,
  start: { readonly celsius: number; readonly ambientCelsius: number },
): Sideways {
  const width = band.halfWidthMillimetres / 1000 / cellsInBand;
  const widths = Array.from({ length: cellsInBand }, () => width);
  for (let next = width * growth, sum = 0; sum < reachMetres; next *= growth) {
    widths.push(next);
    sum += next;
  }
  const at = band.distanceMillimetres / 1000 / width - 0.5;
  const place = Math.min(Math.max(Math.floor(at), 0), cellsInBand - 2);
  return {
    steel,
    ambientCelsius: start.ambientCelsius,
    lossPerSecond: (2 * bareFace) / (capacityAt(steel, bareAtCelsius) * depth),
    widths,
    heated: cellsInBand,
    place,
    share: Math.min(Math.max(at - place, 0), 1),
    celsius: widths.map(() => start.celsius),
    leaving: 0,
  };
}

export const copySideways = (sideways: Sideways): Sideways => ({ ...sideways, celsius: sideways.celsius.slice() });

/** Moves on by that many seconds, at the end of which the mean at the probe's place is as given. */
export function stepSideways(sideways: Sideways, seconds: number, meanCelsius: number): void {
  const { celsius, heated, steel, ambientCelsius, lossPerSecond } = sideways;
  const spread = seconds * diffusivityAt(steel, 0.5 * (meanCelsius + ambientCelsius));
  const lost = seconds * lossPerSecond;
  const before = placeOf(sideways, celsius);
  const drifted = solve(
    sideways,
    celsius.map((each) => each + lost * ambientCelsius),
    spread,
    1 + lost,
  );
  const short = meanCelsius - placeOf(sideways, drifted);
  const excess = before - ambientCelsius;
  const given = celsius.map((each, cell) => {
    if (short < 0 && excess > 0) return Math.max(0, (each - ambientCelsius) / excess) * seconds;
    return cell < heated ? seconds : 0;
  });
  const perKelvin = solve(sideways, given, spread, 1 + lost);
  const put = short / placeOf(sideways, perKelvin);
  for (let cell = 0; cell < celsius.length; cell += 1) celsius[cell] = drifted[cell]! + put * perKelvin[cell]!;
  const intoAir = lossPerSecond * (meanCelsius - ambientCelsius);
  sideways.leaving = (put * placeOf(sideways, given)) / seconds - intoAir - (meanCelsius - before) / seconds;
}

/**
 * What leaves from the present on, K/s, at any time of the course: the mean at the probe's place as given, or with the
 * heat off where it is not.
 */
export function leavingAhead(
  sideways: Sideways,
  until: number,
  mean: ((seconds: number) => number) | undefined,
): (seconds: number) => number {
  const ahead = copySideways(sideways);
  const each = until / stepsAhead;
  const leaving = [sideways.leaving];
  for (let step = 1; step <= stepsAhead; step += 1) {
    stepSideways(ahead, each, mean?.(step * each) ?? alone(ahead, each));
    leaving.push(ahead.leaving);
  }
  return (seconds) => {
    const at = Math.min(Math.max(seconds / each, 0), stepsAhead);
    const step = Math.min(Math.floor(at), stepsAhead - 1);
    return leaving[step]! + (at - step) * (leaving[step + 1]! - leaving[step]!);
  };
}

const stepsAhead = 100;

/** The mean at the probe's place after that time, if nothing is put in. */
function alone(sideways: Sideways, seconds: number): number {
  const { celsius, steel, ambientCelsius, lossPerSecond } = sideways;
  const lost = seconds * lossPerSecond;
  const known = celsius.map((each) => each + lost * ambientCelsius);
  const spread = seconds * diffusivityAt(steel, 0.5 * (placeOf(sideways, celsius) + ambientCelsius));
  return placeOf(sideways, solve(sideways, known, spread, 1 + lost));
}

const placeOf = ({ place, share }: Sideways, values: readonly number[]): number =>
  values[place]! + share * (values[place + 1]! - values[place]!);

/**
 * One backward step of conduction along the cells, both ends insulated; `spread` is diffusivity times time, `own` what
 * each cell has of its own.
 */
function solve({ widths }: Sideways, known: readonly number[], spread: number, own: number): number[] {
  const upper: number[] = [];
  const right: number[] = [];
  let left = 0;
  for (let cell = 0; cell < widths.length; cell += 1) {
    const width = widths[cell]!;
    const onward = cell === widths.length - 1 ? 0 : (2 * spread) / (width + widths[cell + 1]!);
    const before = cell === 0 ? 0 : upper[cell - 1]!;
    const inverse = 1 / (width * own + left + onward - left * before);
    upper.push(onward * inverse);
    right.push((width * known[cell]! + left * (cell === 0 ? 0 : right[cell - 1]!)) * inverse);
    left = onward;
  }
  for (let cell = widths.length - 2; cell >= 0; cell -= 1) right[cell] = right[cell]! + upper[cell]! * right[cell + 1]!;
  return right;
}
