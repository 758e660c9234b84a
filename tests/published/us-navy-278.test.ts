/**
 * US Navy S9074-AR-GIB-010/278, table IV: public page, verified. Printed in Fahrenheit, inches and ksi; look-ups are
 * exact. That S-numbers are taken as P-numbers of the same digit is from memory.
 */
import { expect, test } from 'vitest';
import { degrees } from '../../server/metallurgy/number.ts';
import { tableRow } from '../support/piping-row.ts';

const ksi = (value: number): number => value * 6.894757;
const inch = (value: number): number => value * 25.4;

test.each([
  ['1', 1, 70, { C: 0.35 }, 60],
  ['1', 1.01, 70, { C: 0.31 }, 175],
  ['1', 1.01, 70, { C: 0.3 }, 60],
  ['3', 0.625, 70, {}, 60],
  ['3', 0.63, 70, {}, 175],
  ['3', 0.5, 71, {}, 175],
  ['4', 0.5, 60, {}, 60],
  ['4', 0.51, 60, {}, 250],
  ['4', 0.5, 61, {}, 250],
  ['5A', 1, 60, { Cr: 2.25 }, 300],
  ['5B', 0.6, 60, { Cr: 9 }, 400],
  ['5B', 0.5, 60, { Cr: 9 }, 300],
  ['5A', 0.25, 61, {}, 400],
  ['6', 1, 70, {}, 400],
] as const)('S-%s, %s in, %s ksi', (pNumber, thickness, tensile, percent, fahrenheit) => {
  const changes = { pNumber, thicknessMillimetres: inch(thickness), tensileMegapascals: ksi(tensile) };
  const one = tableRow('us-navy-278', { units: 'inch' }, changes, percent);
  expect(degrees(one.computedCelsius!, 'inch')).toBe(`${fahrenheit} °F`);
  expect([one.role, one.status]).toEqual(['comparison only', 'verified']);
});

test('a P-number that the table does not rule by is refused, not guessed', () => {
  expect(tableRow('us-navy-278', {}, { pNumber: '8' }).applicable).toBe('no');
});
