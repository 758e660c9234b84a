/**
 * Temperature to voltage and back for the letter-designated thermocouples (ITS-90). The direct functions
 * are the definition; the way back begins at the published inverse polynomial and ends on the direct
 * function itself, so that both agree to better than 0.000000001 °C.
 *
 * Type K uses exp(), whose last bit may differ between machines. What leaves this room is rounded to the
 * thousandth of a degree, which that bit does not reach.
 */
import type { ThermocoupleType } from '../measure/thermocouple.ts';
import { usableRange } from '../measure/thermocouple.ts';
import { baseMetal } from './base-metal.ts';
import { nobleMetal } from './noble-metal.ts';
import type { DirectRange, ReferenceFunction } from './reference-function.ts';

export type Inverted =
  | { readonly ok: true; readonly celsius: number }
  | { readonly ok: false; readonly reason: string };

/** Voltage in millivolts of a junction at the temperature against one at 0 °C; undefined outside the function's range. */
export const millivoltsAt = (type: ThermocoupleType, celsius: number): number | undefined => {
  const range = rangeAt(type, celsius);
  return range === undefined ? undefined : voltage(range, celsius);
};

/** Slope of that function in millivolts per kelvin; undefined outside its range. */
export const slopeAt = (type: ThermocoupleType, celsius: number): number | undefined => {
  const range = rangeAt(type, celsius);
  return range === undefined ? undefined : slope(range, celsius);
};

/** Range of the direct function in degrees Celsius. */
export const functionRange = (type: ThermocoupleType): { readonly lowest: number; readonly highest: number } => {
  const { direct } = functions[type];
  return { lowest: direct[0]!.from, highest: direct[direct.length - 1]!.to };
};

/** Temperature in degrees Celsius of a junction that gives the voltage in millivolts against one at 0 °C. */
export const celsiusAt = (type: ThermocoupleType, millivolts: number): Inverted => {
  const { lowest, highest } = rising(type);
  const bottom = millivoltsAt(type, lowest)!;
  const top = millivoltsAt(type, highest)!;
  if (!(millivolts >= bottom && millivolts <= top)) return { ok: false, reason: refusal(type, millivolts, bottom) };
  return { ok: true, celsius: newton(type, millivolts, lowest, highest) };
};

const functions: Readonly<Record<ThermocoupleType, ReferenceFunction>> = { ...baseMetal, ...nobleMetal };

/** Where one voltage names one temperature. Only type B falls before it rises, so it begins at its usable range. */
const rising = (type: ThermocoupleType): { readonly lowest: number; readonly highest: number } => {
  const whole = functionRange(type);
  return type === 'B' ? { lowest: usableRange.B.lowest, highest: whole.highest } : whole;
};

const refusal = (type: ThermocoupleType, millivolts: number, bottom: number): string => {
  const volts = `${millivolts.toFixed(4)} mV`;
  if (type === 'B' && millivolts < bottom) {
    return `${volts} is below the usable range of type B, which begins at ${usableRange.B.lowest} °C: its voltage hardly changes there, and below about 42 °C one voltage names two temperatures; use type K or N`;
  }
  const { lowest, highest } = rising(type);
  return `${volts} is outside the range of type ${type}, ${lowest} to ${highest} °C`;
};

const rangeAt = (type: ThermocoupleType, celsius: number): DirectRange | undefined => {
  const { direct } = functions[type];
  if (!(celsius >= direct[0]!.from)) return undefined;
  return direct.find((range) => celsius <= range.to);
};

const voltage = ({ c, gauss }: DirectRange, t: number): number => {
  const polynomial = c.reduceRight((sum, coefficient) => sum * t + coefficient, 0);
  return gauss === undefined ? polynomial : polynomial + gauss.height * Math.exp(gauss.rate * (t - gauss.centre) ** 2);
};

const slope = ({ c, gauss }: DirectRange, t: number): number => {
  let sum = 0;
  for (let power = c.length - 1; power > 0; power -= 1) sum = sum * t + power * c[power]!;
  if (gauss === undefined) return sum;
  const x = t - gauss.centre;
  return sum + 2 * gauss.height * gauss.rate * x * Math.exp(gauss.rate * x * x);
};

/** Newton's method held between two bounds: a step that would leave them is replaced by halving. */
const newton = (type: ThermocoupleType, millivolts: number, lowest: number, highest: number): number => {
  let low = lowest;
  let high = highest;
  let t = Math.min(high, Math.max(low, seed(type, millivolts)));
  for (let step = 0; step < 60; step += 1) {
    const excess = millivoltsAt(type, t)! - millivolts;
    if (excess > 0) high = t;
    else low = t;
    const next = t - excess / slopeAt(type, t)!;
    const inside = next >= low && next <= high;
    const better = inside ? next : (low + high) / 2;
    if (Math.abs(better - t) < 1e-11) return better;
    t = better;
  }
  return t;
};

const seed = (type: ThermocoupleType, millivolts: number): number => {
  const ranges = functions[type].seed;
  const range = ranges.find(({ below }) => millivolts < below) ?? ranges[ranges.length - 1]!;
  return range.d.reduceRight((sum, coefficient) => sum * millivolts + coefficient, 0);
};
