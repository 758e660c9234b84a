/**
 * Comparing and rounding computed temperatures. Formulas with tanh and powers differ in their last bits
 * between machines; nothing here lets such a bit decide. Celsius unless the name says otherwise.
 */

import { fromFahrenheit, toFahrenheit, type UnitSystem } from '../measure/units.ts';

/** At or below this a computed minimum means that no preheat is needed: the part dry and at least this warm. Common practice. */
export const noPreheatCelsius = 20;

/** To a millionth, so that floating noise cannot flip a comparison or a ceiling; adding 0 makes a minus zero plain. */
export const steady = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/**
 * Up to the next multiple of 5 °C, in a job in Fahrenheit of 10 °F; a value that is one stays. Common practice
 * for a written procedure. Celsius in, Celsius out.
 */
export const roundedUp = (celsius: number, units: UnitSystem = 'metric'): number =>
  units === 'inch'
    ? fromFahrenheit(Math.ceil(steady(toFahrenheit(celsius)) / 10) * 10)
    : Math.ceil(steady(celsius) / 5) * 5 + 0;

/** A temperature in words. One decimal, more where one decimal would hide on which side of a multiple of 5 it lies. */
export const degrees = (celsius: number, units: UnitSystem = 'metric'): string => {
  const value = steady(units === 'inch' ? hundredths(toFahrenheit(celsius)) : celsius);
  const short = Number(value.toFixed(1));
  const hidden = short % 5 === 0 && short !== value;
  return `${signed(hidden ? value : short)} ${units === 'inch' ? '°F' : '°C'}`;
};

/** A value that was stated in whole degrees Fahrenheit comes back as such. */
const hundredths = (value: number): number => Math.round(value * 100) / 100;

/** A plain number in words, at most so many decimals, without trailing zeros. */
export const plain = (value: number, decimals = 5): string => signed(Number(value.toFixed(decimals)));

/** With a true minus sign, and no minus before zero. */
const signed = (value: number): string => (value < 0 ? `\u2212${-value}` : String(Math.abs(value)));
