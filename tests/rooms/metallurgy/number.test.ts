/** Rounding up and its words: no floating noise may flip a ceiling, and no word may hide which side a value is on. */
import { expect, test } from 'vitest';
import { degrees, plain, roundedUp } from '../../../server/metallurgy/number.ts';

test('up to the next multiple of 5; a multiple stays, whatever noise it carries', () => {
  expect(
    [143.735, 145, 145.01, 0.1, 140 + 5e-8, 145.0000001, 144.9999999].map((celsius) => roundedUp(celsius)),
  ).toEqual([145, 145, 150, 5, 140, 145, 145]);
});

test('one decimal, but more where one decimal would sit on a multiple of 5 that the value is not', () => {
  expect(degrees(143.735)).toBe('143.7 °C');
  expect(degrees(145)).toBe('145 °C');
  expect(degrees(145.004)).toBe('145.004 °C');
  expect(degrees(144.96)).toBe('144.96 °C');
  expect(degrees(-167.69)).toBe('\u2212167.7 °C');
});

test('plain numbers lose their trailing zeros only', () => {
  expect([0.5, 0.327251234, -7.5, 0].map((value) => plain(value))).toEqual(['0.5', '0.32725', '\u22127.5', '0']);
});
