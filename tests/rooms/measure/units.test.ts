/** Units of people: exact by definition, and a difference is not a temperature. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  differenceFromFahrenheit,
  differenceToFahrenheit,
  fromFahrenheit,
  fromInches,
  fromKilojoulesPerInch,
  toFahrenheit,
  toInches,
  toKilojoulesPerInch,
  unitsOf,
} from '../../../server/measure/units.ts';

test('fixed points of the scales', () => {
  // Definition of the Fahrenheit scale in use: ice point 32, steam point 212; the scales meet at -40.
  expect([0, 100, -40].map(toFahrenheit)).toEqual([32, 212, -40]);
  // International yard and pound agreement of 1959: 1 in = 25.4 mm.
  expect(fromInches(1)).toBe(25.4);
  expect(toKilojoulesPerInch(1)).toBe(25.4);
});

test('a difference converts as a difference', () => {
  expect(differenceToFahrenheit(10)).toBe(18);
  fc.assert(
    fc.property(
      fc.double({ min: -100, max: 900, noNaN: true }),
      fc.double({ min: 0, max: 300, noNaN: true }),
      (at, by) => {
        expect(toFahrenheit(at + by) - toFahrenheit(at)).toBeCloseTo(differenceToFahrenheit(by), 9);
      },
    ),
  );
});

test('there and back is where it began', () => {
  const value = fc.double({ min: -1e4, max: 1e4, noNaN: true });
  for (const [there, back] of [
    [toFahrenheit, fromFahrenheit],
    [differenceToFahrenheit, differenceFromFahrenheit],
    [toInches, fromInches],
    [toKilojoulesPerInch, fromKilojoulesPerInch],
  ] as const)
    fc.assert(
      fc.property(value, (x) => {
        expect(back(there(x))).toBeCloseTo(x, 9);
      }),
    );
});

test('a job that states no system is metric', () => {
  expect(unitsOf({})).toBe('metric');
  expect(unitsOf({ units: 'inch' })).toBe('inch');
});
