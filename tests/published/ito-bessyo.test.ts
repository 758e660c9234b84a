/**
 * Ito and Bessyo, as in JIS B 8285: from memory; the form t/600 is verified in an article on the original cracking
 * equations. The temperatures are computed from the formula, within 0.05 °C.
 */
import { expect, test } from 'vitest';
import { itoBessyoTerms } from '../../server/metallurgy/methods/ito-bessyo.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { plainJoint } from '../support/plain-joint.ts';

const sum = (terms: readonly { readonly value: number }[]): number => terms.reduce((all, { value }) => all + value, 0);

test.each([
  ['IB-1', 0.2, 2, { t: 25 }, 4],
  ['IB-2', 0.25, 3, { t: 50 }, 160],
  ['IB-3', 0.22, 1.5, { t: 40 }, 56.8],
  ['IB-4', 0.28, 4, { t: 50 }, 227.2],
  ['IB-5', 0.25, 3, { k: 20_000 }, 112],
  ['IB-6', 0.25, 3, { k: 10_000 }, 76],
] as const)('Ito and Bessyo, %s', (_, pcm, h, restraint, celsius) => {
  expect(sum(itoBessyoTerms({ pcm, h, restraint }))).toBeCloseTo(celsius, 1);
});

test('Ito and Bessyo is silent beyond 50 mm, where the straight line runs away', () => {
  const one = requirement(plainJoint(), []).methods.find(({ id }) => id === 'ito-bessyo')!;
  expect([one.applicable, one.computedCelsius]).toEqual(['no', undefined]);
  expect(one.reason).toContain('80 mm is above the range 19 to 50 mm');
});
