/**
 * From what the board measured to the temperature of the measuring junction.
 *
 * A thermocouple's voltage is that of the difference of two junctions, and the function is not straight.
 * So the cold junction is made good in voltage, never by adding temperatures:
 *   E(hot) = measured + E(cold),   hot = inverse of E at that sum.
 * The branch of the inverse is chosen on the sum too: choosing it on the measured voltage is wrong near
 * the cold junction's own temperature.
 */
import type { DeciMicrovolt, MilliCelsius } from '../measure/quantity.ts';
import { isUsable, type ThermocoupleType } from '../measure/thermocouple.ts';
import type { Quality } from '../weld/scan.ts';
import { celsiusAt, millivoltsAt } from './thermocouple.ts';

export type Junction =
  | { readonly quality: 'good'; readonly temperature: MilliCelsius }
  | { readonly quality: Exclude<Quality, 'good'> };

/**
 * Cold junction temperatures that are believed, thousandths of a degree. The common converter parts state
 * an accuracy for their cold junction from -40 to 105 °C (MAX31856 data sheet); beyond it they state none.
 */
export const coldJunctionRange = { lowest: -40_000, highest: 105_000 } as const;

/** Voltage in tenths of a microvolt and cold junction to the measuring junction, rounded to a thousandth of a degree. */
export const junctionOfVoltage = (
  type: ThermocoupleType,
  deciMicrovolts: DeciMicrovolt,
  coldJunction: MilliCelsius,
): Junction => {
  if (coldJunction < coldJunctionRange.lowest || coldJunction > coldJunctionRange.highest) {
    return { quality: 'cold junction out of range' };
  }
  const cold = millivoltsAt(type, coldJunction / 1000);
  // Type B's function begins at 0 °C; a colder terminal gives it no voltage to add.
  if (cold === undefined) return { quality: 'cold junction out of range' };
  const hot = celsiusAt(type, deciMicrovolts / 10_000 + cold);
  return hot.ok ? junctionAt(type, hot.celsius) : { quality: 'out of range' };
};

/** A temperature in degrees Celsius that the instrument or a log states, against the usable range of the type. */
export const junctionAt = (type: ThermocoupleType, celsius: number): Junction =>
  isUsable(type, celsius) ? { quality: 'good', temperature: thousandths(celsius) } : { quality: 'out of range' };

/** Adding 0 turns the minus zero that Math.round may give into zero, so that equal readings are equal. */
const thousandths = (celsius: number): MilliCelsius => (Math.round(celsius * 1000) + 0) as MilliCelsius;
