/**
 * Cooling time t8/5 from 800 to 500 °C of a run, and its inverse (EN 1011-2:2001 annex D, from SEW 088). In thick
 * metal the heat spreads in three dimensions, in thin metal in two; the larger of the two times counts, and at the
 * transition thickness they are equal. For unalloyed and low-alloy steel that is below 500 °C before the run.
 *
 * Units throughout: celsius before the run, heat input kJ/mm with its efficiency k, thickness mm, seconds.
 */

/** Two-dimensional flow goes by F2, three-dimensional by F3; one plain number each here. */
export interface CoolingConditions {
  readonly celsius: number;
  readonly thicknessMillimetres: number;
  readonly shapeTwo: number;
  readonly shapeThree: number;
}

/** At 500 °C there is nothing left to cool through. */
export const highestCoolingCelsius = 500;

export const coolingFormulaThree = 't8/5 = (6700 − 5·Tp)·Q·[1/(500 − Tp) − 1/(800 − Tp)]·F3';
export const coolingFormulaTwo = 't8/5 = (4300 − 4.3·Tp)·10⁵·(Q²/d²)·[1/(500 − Tp)² − 1/(800 − Tp)²]·F2';
export const transitionFormula =
  'dt = √{(4300 − 4.3·Tp)/(6700 − 5·Tp)·10⁵·Q·[1/(500 − Tp) + 1/(800 − Tp)]·F2/F3}, where both formulas are equal';

export const coolingSecondsThree = (at: CoolingConditions, heatInput: number): number => perHeatInput(at) * heatInput;

export const coolingSecondsTwo = (at: CoolingConditions, heatInput: number): number =>
  perHeatInputSquared(at) * heatInput ** 2;

/** The larger of the two. */
export const coolingSeconds = (at: CoolingConditions, heatInput: number): number =>
  Math.max(coolingSecondsThree(at, heatInput), coolingSecondsTwo(at, heatInput));

/** Thickness in mm from which on the heat spreads in three dimensions. */
export const transitionMillimetres = (at: CoolingConditions, heatInput: number): number =>
  at.thicknessMillimetres * Math.sqrt((perHeatInputSquared(at) * heatInput) / perHeatInput(at));

/** Heat input in kJ/mm that cools in just this time. Both times rise with heat input, so that the smaller answer counts. */
export const heatInputFor = (at: CoolingConditions, seconds: number): number =>
  Math.min(seconds / perHeatInput(at), Math.sqrt(seconds / perHeatInputSquared(at)));

function perHeatInput({ celsius, shapeThree }: CoolingConditions): number {
  const [to500, to800] = gaps(celsius);
  return (6700 - 5 * celsius) * (1 / to500 - 1 / to800) * shapeThree;
}

function perHeatInputSquared({ celsius, thicknessMillimetres, shapeTwo }: CoolingConditions): number {
  const [to500, to800] = gaps(celsius);
  return ((4300 - 4.3 * celsius) * 1e5 * (1 / to500 ** 2 - 1 / to800 ** 2) * shapeTwo) / thicknessMillimetres ** 2;
}

function gaps(celsius: number): [to500: number, to800: number] {
  if (celsius >= highestCoolingCelsius) throw new RangeError(`no cooling time from ${celsius} °C: below 500 °C only`);
  return [500 - celsius, 800 - celsius];
}
