/**
 * What the far face gives to the air, found from probes on both faces: the heat that the wall's own account says went
 * out there against how much warmer the face was than the air, by least squares that forget after three time constants.
 * The account is a sum over time, so that noise of the readings does not add up in it; the flux at an instant is noise.
 */
import { bounds } from './bounds.ts';
import { areaAt, fieldConductivity, meanOf } from './field.ts';
import { type Refusal, refuse } from './refusal.ts';
import { lengthOf } from './steady.ts';
import { capacityAt } from './steel/steel.ts';
import { timeConstantOf } from './time-constant.ts';
import { isBackMeasured, type Wall } from './wall.ts';

/** Plain data; a copy goes on by itself. */
export interface LossSums {
  /** Fourier number since which the far face has been measured without a break. */
  measuredFourier: number;
  /** Back face at the end of the step before. */
  backCelsius: number;
  /** Weighed sums: seconds, heat out times excess over the air, excess squared times seconds. */
  seconds: number;
  products: number;
  squares: number;
}

export interface FarLoss {
  /** Convection and radiation together at the temperatures of now, W/(m2 K) of far face, and how far that may be off. */
  readonly coefficient: number;
  readonly uncertainty: number;
}

export const noLossSums = (backCelsius: number): LossSums => ({
  measuredFourier: 0,
  backCelsius,
  seconds: 0,
  products: 0,
  squares: 0,
});

/** Takes in the step that the wall has just ended. */
export function gatherLoss(sums: LossSums, wall: Wall): void {
  const { field, mode } = wall;
  const seconds = field.lastSeconds;
  const timeConstants = (1000 * seconds) / timeConstantOf(wall);
  const before = sums.backCelsius;
  sums.backCelsius = field.backCelsius;
  // After a jump over a gap nothing is known of the heat that went meanwhile.
  if (seconds === 0 || !isBackMeasured(wall)) {
    sums.measuredFourier = 0;
    return;
  }
  sums.measuredFourier += timeConstants * mode;
  const area = areaAt(field, field.depth);
  if (sums.measuredFourier < bounds.insideForgottenFourier || area === 0) return;
  const excess = 0.5 * (before + field.backCelsius) - wall.ambientCelsius;
  const out = (field.heat.backBefore - field.heat.back) / area;
  const age = timeConstants / bounds.lossTimeConstants;
  const kept = 1 / (1 + age + (age * age) / 2);
  sums.seconds = kept * sums.seconds + seconds;
  sums.products = kept * sums.products + out * excess;
  sums.squares = kept * sums.squares + excess * excess * seconds;
}

/**
 * The uncertainty is what readings that are wrong by `uncertaintyKelvin` on both faces would make of it: heat
 * that seems to flow through the wall, and heat that seems stored in it; and the spread of the steel. Refused where it is
 * above half the value: in a thin wall the two faces differ by less than two probes do.
 */
export function farLossOf(sums: LossSums, wall: Wall, uncertaintyKelvin: number): FarLoss | Refusal {
  const { field } = wall;
  const excess = Math.sqrt(sums.squares / sums.seconds);
  const coefficient = sums.products / sums.squares;
  const area = areaAt(field, field.depth);
  const mean = meanOf(field);
  const through = (1.4143 * fieldConductivity(field, mean)) / lengthOf(field.depth, field.taper);
  const stored = (capacityAt(field.steel, mean) * field.depth) / sums.seconds;
  const uncertainty = rootOfSquares(
    (uncertaintyKelvin * rootOfSquares(through, stored)) / area / excess,
    (coefficient * uncertaintyKelvin) / excess,
    coefficient * field.steel.diffusivityBand,
  );
  // Nothing gathered yet makes both of them no number: refused as well.
  if (uncertainty <= coefficient / 2) return { coefficient, uncertainty };
  return refuse(
    'not told by these readings',
    `Readings that may be off by ${uncertaintyKelvin} K do not tell what the far face of this wall gives away.`,
  );
}

const rootOfSquares = (...parts: readonly number[]): number =>
  Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));
