/**
 * Thermocouple voltage at a temperature, read from the printed table between its lines. Through the four
 * nearest printed values goes one cubic: its own error stays below the half microvolt of the printing.
 */
import { highestCelsius, lowestCelsius, microvoltsJ, microvoltsK, stepCelsius } from './printed-table.ts';

export type EmulatedThermocouple = 'K' | 'J';

const tables: Readonly<Record<EmulatedThermocouple, readonly number[]>> = { K: microvoltsK, J: microvoltsJ };

/** Microvolts against a junction at 0 °C, or undefined outside the printed -100 to 800 °C. */
export const microvoltsAt = (thermocouple: EmulatedThermocouple, celsius: number): number | undefined => {
  if (!(celsius >= lowestCelsius && celsius <= highestCelsius)) return undefined;
  const table = tables[thermocouple];
  const place = (celsius - lowestCelsius) / stepCelsius;
  const first = Math.min(Math.max(Math.floor(place) - 1, 0), table.length - 4);
  return cubicThrough(table.slice(first, first + 4), place - first);
};

/** The cubic through four values at 0, 1, 2, 3, taken at x (Lagrange's form). */
const cubicThrough = (values: readonly number[], x: number): number => {
  const [a, b, c, d] = values as [number, number, number, number];
  return (
    (-a * (x - 1) * (x - 2) * (x - 3)) / 6 +
    (b * x * (x - 2) * (x - 3)) / 2 -
    (c * x * (x - 1) * (x - 3)) / 2 +
    (d * x * (x - 1) * (x - 2)) / 6
  );
};
