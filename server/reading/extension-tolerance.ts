/**
 * How far an extension or compensating cable may be off, plus or minus, as a voltage: IEC 60584-3 (microvolts from
 * memory; they give the kelvin of a stored table at its stated temperatures). In kelvin it depends on the slope of
 * the thermocouple where the tip is.
 */
import type { ThermocoupleType } from '../measure/thermocouple.ts';
import { slopeAt } from './thermocouple.ts';

/** Half width in kelvin at the temperature of the tip, degrees Celsius; undefined where the standard gives no such class. */
export function extensionTolerance(type: ThermocoupleType, grade: 1 | 2, celsius: number): number | undefined {
  const microvolts = tolerances[type][grade - 1];
  const slope = slopeAt(type, celsius);
  return microvolts === undefined || slope === undefined || slope <= 0 ? undefined : microvolts / 1000 / slope;
}

/** Class 1 and class 2, microvolts. Of R, S and B there is compensating cable only, of the wider alloy here. */
const tolerances: Readonly<Record<ThermocoupleType, readonly [number | undefined, number]>> = {
  K: [60, 100],
  J: [85, 140],
  T: [30, 60],
  E: [120, 200],
  N: [60, 100],
  R: [undefined, 60],
  S: [undefined, 60],
  B: [undefined, 40],
};
