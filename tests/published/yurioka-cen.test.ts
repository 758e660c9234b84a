/**
 * Yurioka 1983: index and the first three coefficients of the cooling time verified in the abstract of the paper, the
 * constant 41.0 from memory. Values computed from the formulas; times within 0.5 %.
 */
import { expect, test } from 'vitest';
import { crackingIndex, criticalSeconds } from '../../server/metallurgy/methods/yurioka-cen.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { plainJoint } from '../support/plain-joint.ts';

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
