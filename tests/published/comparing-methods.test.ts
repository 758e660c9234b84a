/**
 * Methods that only compare. Ito and Bessyo (JIS B 8285): from memory, the form t/600 verified in an article on the
 * original cracking equations. Séférian: SF-0 published in a worked calculation note, the others computed from its
 * formulas. Yurioka 1983: first three coefficients verified in the abstract, the constant from memory. EN 1011-2
 * method A: table C.1 verified on a public copy of BS EN 1011-2:2001 + A1.
 */
import { expect, test } from 'vitest';
import { hydrogenScale, withoutPreheat } from '../../server/metallurgy/methods/en-1011-2-method-a.ts';
import { itoBessyoTerms } from '../../server/metallurgy/methods/ito-bessyo.ts';
import { seferianCelsius, totalEquivalent } from '../../server/metallurgy/methods/seferian.ts';
import { crackingIndex, criticalSeconds } from '../../server/metallurgy/methods/yurioka-cen.ts';
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

test.each([
  ['YU-1', 0.5, 46.993],
  ['YU-2', 0.6, 579.17],
  ['YU-3', 0.7, 2136.2],
] as const)('cooling time to 100 °C of Yurioka, %s', (_, index, seconds) => {
  expect(Math.abs(criticalSeconds(index) / seconds - 1)).toBeLessThan(0.005);
});

test('cracking index of Yurioka, YU-4', () => {
  const index = crackingIndex({ cen: 0.44, h: 2.55, concentration: 1.5, stress: 50 });
  expect(index).toBeCloseTo(0.53263, 4);
  expect(Math.abs(criticalSeconds(index) / 124.85 - 1)).toBeLessThan(0.005);
});

test('Yurioka shows index and time, and never a temperature', () => {
  const joint = plainJoint({
    stressConcentration: 1.5,
    meanWeldStressMegapascals: 490,
    consumable: { hydrogen: { class: 'H5' }, glycerineMillilitresPer100Grams: 2.5 },
  });
  const one = requirement(joint, []).methods.find(({ id }) => id === 'yurioka-cen')!;
  expect(one.applicable).toBe('yes');
  expect(one.computedCelsius).toBeUndefined();
  expect(one.indication).toMatch(/^cracking index 0\.\d+: the weld has to take \d+ s or more/);
});

test.each([
  [20, 25, 50, 40, 80],
  [12, 30, 55, 50, 90],
  [8, 35, 65, 60, 100],
  [4, 50, 100, 100, 100],
  [3, 60, 100, 100, 100],
] as const)('method A, table C.1 at HD %s', (hd, a, b, c, d) => {
  expect(withoutPreheat(0.49, hd, 1)?.millimetres).toBe(a);
  expect(withoutPreheat(0.49, hd, 2)?.millimetres).toBe(b);
  expect(withoutPreheat(0.43, hd, 1)?.millimetres).toBe(c);
  expect(withoutPreheat(0.43, hd, 2)?.millimetres).toBe(d);
});

test('table C.1 is not interpolated: CE goes up to a column, heat input down', () => {
  expect(withoutPreheat(0.44, 12, 1.9)?.millimetres).toBe(30);
  expect(withoutPreheat(0.5, 12, 2)).toBeUndefined();
  expect([16, 15, 10, 5, 3].map(hydrogenScale)).toEqual(['A', 'B', 'C', 'D', 'E']);
});
