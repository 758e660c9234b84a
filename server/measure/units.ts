/**
 * Units that people read. Everything inside is SI-like: degrees Celsius, millimetres, kilojoules per millimetre.
 * A difference of temperatures converts as a difference: 10 K are 18 degrees Fahrenheit, not 50.
 */

export const unitSystems = ['metric', 'inch'] as const;
export type UnitSystem = (typeof unitSystems)[number];

/** A job that states no unit system is read and written in the metric one. */
export const unitsOf = ({ units }: { readonly units?: UnitSystem | undefined }): UnitSystem => units ?? 'metric';

/** Exact by definition (international yard and pound agreement of 1959). */
const millimetresPerInch = 25.4;

export const toFahrenheit = (celsius: number): number => celsius * 1.8 + 32;
export const fromFahrenheit = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const differenceToFahrenheit = (kelvin: number): number => kelvin * 1.8;
export const differenceFromFahrenheit = (fahrenheit: number): number => fahrenheit / 1.8;
export const toInches = (millimetres: number): number => millimetres / millimetresPerInch;
export const fromInches = (inches: number): number => inches * millimetresPerInch;
/** kJ/mm to kJ/in. */
export const toKilojoulesPerInch = (perMillimetre: number): number => perMillimetre * millimetresPerInch;
export const fromKilojoulesPerInch = (perInch: number): number => perInch / millimetresPerInch;

/** Exact by the pound-force and the inch: 1 ksi in megapascals. */
const megapascalsPerKsi = 6.894757293168361;
export const toKsi = (megapascals: number): number => megapascals / megapascalsPerKsi;
export const fromKsi = (ksi: number): number => ksi * megapascalsPerKsi;
