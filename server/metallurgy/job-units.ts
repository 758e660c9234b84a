/**
 * Tables that a code prints twice, in metric and in inch units, do not agree at their edges: 65 mm lies in the
 * metric band up to 65 mm and in the inch band above 2 1/2 in. A job goes by one system throughout.
 */
import { fromFahrenheit, toInches, type UnitSystem } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { WorkingInput } from './answer.ts';
import { steady } from './number.ts';

/** What is to be told (unitsOf in measure/units.ts then answers metric) where the bands rest on a unit system that nobody stated. */
export const unitsFlag = (joint: Joint): string[] =>
  joint.units === undefined
    ? [
        'the unit system of the job is not stated; the metric bands of the table are used, and the inch bands may differ',
      ]
    : [];

/** A length as the bands of the table count it: millimetres or inches, free of the noise of conversion. */
export const lengthIn = (system: UnitSystem, millimetres: number): number =>
  steady(system === 'metric' ? millimetres : toInches(millimetres));

/**
 * A minimum printed in whole degrees Fahrenheit, in Celsius. Up to the next thousandth, so that it is never judged
 * lower than it is printed, and reads as printed when it is shown in Fahrenheit.
 */
export const celsiusOfLimit = (fahrenheit: number): number =>
  Math.ceil(steady(fromFahrenheit(fahrenheit) * 1000)) / 1000;

/** Codes go by the thickest part at the weld, whichever part they speak of. */
export function thickestAtJoint(joint: Joint): WorkingInput {
  const thickest = joint.parts.reduce((most, part) =>
    part.thicknessMillimetres > most.thicknessMillimetres ? part : most,
  );
  return {
    name: 't',
    value: thickest.thicknessMillimetres,
    unit: 'mm',
    from: `thickest part at the weld, ${thickest.id}`,
  };
}
