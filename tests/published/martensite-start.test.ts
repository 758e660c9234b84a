/**
 * Martensite start by Andrews (linear) and by Steven and Haynes, both from memory. The sums are worked out by hand
 * for round contents.
 */
import { expect, test } from 'vitest';
import { martensiteStart } from '../../server/metallurgy/martensite-start.ts';
import { plainAnalysis, plainJoint, plainPart, withPercent } from '../support/plain-joint.ts';

const starts = (...percents: Parameters<typeof withPercent>[0][]) =>
  martensiteStart(plainJoint({ parts: [plainPart({ analyses: percents.map(withPercent) })] }));

test('0.2 C, 1 Mn, 1 Cr, 1 Ni, 1 Mo', () => {
  const [andrews, steven] = starts({ C: 0.2, Mn: 1, Cr: 1, Ni: 1, Mo: 1 });
  // 539 − 84.6 − 30.4 − 17.7 − 12.1 − 7.5, and 561 − 94.8 − 33 − 17 − 17 − 21.
  expect(andrews!.celsius).toBeCloseTo(386.7, 6);
  expect(steven!.celsius).toBeCloseTo(378.2, 6);
  expect([andrews!.status, steven!.status]).toEqual(['from memory', 'from memory']);
});

test('of two analyses the one that gives the lower start counts', () => {
  const soft = { C: 0.1, Mn: 1, Cr: 0, Ni: 0, Mo: 0 };
  const hard = { C: 0.2, Mn: 1, Cr: 0, Ni: 0, Mo: 0 };
  expect(starts(soft, hard)[0]!.celsius).toBeCloseTo(539 - 84.6 - 30.4, 6);
  expect(starts(hard, soft)[0]!.celsius).toBeCloseTo(539 - 84.6 - 30.4, 6);
});

test('an element that no paper gives is asked for, and there is no number', () => {
  const [andrews] = starts({ Ni: 'not reported', Mo: 'not reported' });
  expect(andrews!.missing).toEqual(['Ni', 'Mo']);
  expect(andrews).not.toHaveProperty('celsius');
  const without = martensiteStart(plainJoint({ parts: [plainPart({ analyses: [] })] }));
  expect(without[1]!.missing).toEqual(['C', 'Mn', 'Ni', 'Cr', 'Mo']);
});

test('austenitic steel gets no number; nine percent of chromium is said to be beyond the steels of the formula', () => {
  const part = plainPart({ kind: 'austenitic', analyses: [plainAnalysis] });
  const [austenitic] = martensiteStart(plainJoint({ parts: [part] }));
  expect(austenitic).not.toHaveProperty('celsius');
  expect(austenitic!.remark).toContain('austenitic');
  expect(starts({ Cr: 8.75 })[0]!.remark).toContain('8.75 % Cr');
});
