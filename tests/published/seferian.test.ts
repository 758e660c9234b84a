/**
 * Séférian: SF-0 is published in a worked calculation note (second-hand), which leaves out two elements of its own
 * formula; the full formula and the other rows are computed from it, within 0.05 °C.
 */
import { expect, test } from 'vitest';
import { seferianCelsius, totalEquivalent } from '../../server/metallurgy/methods/seferian.ts';

test.each([
  ['SF-0', 0.356444, 50, 154.776],
  ['SF-1', 0.3, 20, 98.995],
  ['SF-2', 0.35, 50, 151.55],
  ['SF-3', 0.4, 80, 194.87],
  ['SF-4', 0.24, 5, 0],
  ['CV-2, full formula', 0.3637, 50, 158.32],
] as const)('Séférian, %s', (_, cc, e, celsius) => {
  expect(seferianCelsius(totalEquivalent(cc, e))).toBeCloseTo(celsius, 1);
});
