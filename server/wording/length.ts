/** Lengths and heat inputs in the units of the job. Stored in millimetres and kilojoules per millimetre. */
import { toInches, toKilojoulesPerInch, type UnitSystem } from '../measure/units.ts';

/** "75 mm", "2.95 in". */
export const lengthText = (millimetres: number, units: UnitSystem): string =>
  `${lengthFigure(millimetres, units)} ${lengthUnit(units)}`;

/** "75", where the unit stands elsewhere. */
export const lengthFigure = (millimetres: number, units: UnitSystem): string =>
  units === 'inch'
    ? few(toInches(millimetres), isWholeThousandths(toInches(millimetres)) ? 3 : 2)
    : few(millimetres, 2);

/** 3/8 in is 0.375 in and is shown so; what was millimetres needs no third decimal. */
const isWholeThousandths = (inches: number): boolean => Math.abs(inches * 1000 - Math.round(inches * 1000)) < 1e-6;

export const lengthUnit = (units: UnitSystem): string => (units === 'inch' ? 'in' : 'mm');

/** "1.5 kJ/mm", "38.1 kJ/in". */
export const heatInputFigureText = (
  kilojoulesPerMillimetre: number,
  units: UnitSystem,
  decimals = units === 'inch' ? 2 : 3,
): string =>
  units === 'inch'
    ? `${few(toKilojoulesPerInch(kilojoulesPerMillimetre), decimals)} kJ/in`
    : `${few(kilojoulesPerMillimetre, decimals)} kJ/mm`;

/** "4 mm/s", "9.45 in/min": travel is counted per minute where lengths are inches. */
export const travelText = (millimetresPerSecond: number, units: UnitSystem): string =>
  units === 'inch' ? `${few(toInches(millimetresPerSecond) * 60, 2)} in/min` : `${few(millimetresPerSecond, 3)} mm/s`;

/** At most so many decimals, without trailing zeros. */
const few = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));
