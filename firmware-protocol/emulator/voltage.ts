/**
 * Thermocouple voltage at a temperature, read from the printed table between its lines. Through the four
 * nearest printed values goes one cubic: its own error stays below the half microvolt of the printing.
 */
import { type EmulatedThermocouple, type PrintedTable, printedTables, stepCelsius } from './printed-table.ts';

/** Microvolts against a junction at 0 °C, or undefined outside the printed lines. */
export const microvoltsAt = (thermocouple: EmulatedThermocouple, celsius: number): number | undefined => {
  const table = printedTables[thermocouple];
  if (!(celsius >= table.lowestCelsius && celsius <= highestOf(table))) return undefined;
  const place = (celsius - table.lowestCelsius) / stepCelsius;
  const first = Math.min(Math.max(Math.floor(place) - 1, 0), table.microvolts.length - 4);
  return cubicThrough(table.microvolts.slice(first, first + 4), place - first);
};

/** Degrees Celsius at which the table has so many microvolts, or undefined outside its lines. By halving. */
export const celsiusAt = (thermocouple: EmulatedThermocouple, microvolts: number): number | undefined => {
  const table = printedTables[thermocouple];
  let [low, high] = [table.lowestCelsius, highestOf(table)];
  if (!(microvolts >= table.microvolts[0]! && microvolts <= table.microvolts.at(-1)!)) return undefined;
  for (let halving = 0; halving < 40; halving += 1) {
    const middle = (low + high) / 2;
    if (microvoltsAt(thermocouple, middle)! < microvolts) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

const highestOf = ({ lowestCelsius, microvolts }: PrintedTable): number =>
  lowestCelsius + stepCelsius * (microvolts.length - 1);

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
