/**
 * ASME B31.3 table 330.1.1 (2014 and 2010: public copies of the pages, verified) and ASME B31.1 paragraph 131.4 (from
 * memory; same structure as table IV of US Navy S9074-AR-GIB-010/278, which is verified). Look-ups are exact.
 */
import { expect, test } from 'vitest';
import type { MethodAnswer } from '../../server/metallurgy/answer.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import type { Analysis } from '../../server/weld/composition.ts';
import type { CodeSet } from '../../server/weld/joint.ts';
import type { Part } from '../../server/weld/part.ts';
import { plainJoint, withPercent } from '../support/plain-joint.ts';

const ids = { 'ASME B31.3:2014': 'asme-b31-3-2014', 'ASME B31.3:2010': 'asme-b31-3-2010', 'ASME B31.1': 'asme-b31-1' };

function row(
  codeSet: keyof typeof ids & CodeSet,
  changes: Partial<Part>,
  percent: Analysis['percent'] = {},
): MethodAnswer {
  const joint = plainJoint({ codeSet, units: 'metric' });
  const parts = joint.parts.map((part) => ({ ...part, analyses: [withPercent(percent)], ...changes }));
  return requirement({ ...joint, parts }, []).methods.find(({ id }) => id === ids[codeSet])!;
}

test.each([
  ['1', 20, 480, { C: 0.35 }, 10],
  ['1', 30, 480, { C: 0.3 }, 10],
  ['1', 30, 480, { C: 0.31 }, 95],
  ['3', 13, 450, {}, 10],
  ['3', 13.1, 450, {}, 95],
  ['3', 10, 451, {}, 95],
  ['4', 10, 480, {}, 120],
  ['5A', 10, 414, {}, 150],
  ['5A', 10, 415, {}, 200],
  ['5B', 10, 414, { Cr: 5 }, 150],
  ['5B', 20, 414, { Cr: 9 }, 200],
  ['6', 10, 480, {}, 200],
  ['9A', 10, 480, {}, 120],
  ['9B', 10, 480, {}, 150],
  ['10I', 10, 480, {}, 150],
  ['15E', 10, 585, {}, 200],
  ['8', 10, 515, {}, 10],
] as const)(
  '2014, P-No. %s, %s mm, %s MPa: required',
  (pNumber, thicknessMillimetres, tensileMegapascals, percent, celsius) => {
    const one = row('ASME B31.3:2014', { pNumber, thicknessMillimetres, tensileMegapascals }, percent);
    expect([one.computedCelsius, one.role]).toEqual([celsius, 'code minimum']);
  },
);

test.each([
  ['1', 20, 480, 10, 'comparison only'],
  ['1', 25, 480, 79, 'comparison only'],
  ['1', 20, 491, 79, 'comparison only'],
  ['3', 13, 480, 79, 'comparison only'],
  ['4', 10, 480, 149, 'code minimum'],
  ['5A', 10, 480, 177, 'code minimum'],
  ['6', 10, 480, 149, 'comparison only'],
  ['15E', 45, 585, 204, 'code minimum'],
] as const)(
  '2010, P-No. %s, %s mm, %s MPa: required or only recommended',
  (pNumber, thicknessMillimetres, tensileMegapascals, celsius, role) => {
    const one = row('ASME B31.3:2010', { pNumber, thicknessMillimetres, tensileMegapascals });
    expect([one.computedCelsius, one.role]).toEqual([celsius, role]);
  },
);

test.each([
  ['1', 30, 480, { C: 0.31 }, 80],
  ['1', 30, 480, { C: 0.3 }, 10],
  ['3', 16, 480, {}, 10],
  ['3', 17, 480, {}, 80],
  ['4', 14, 400, {}, 120],
  ['4', 13, 410, {}, 10],
  ['5A', 10, 411, {}, 200],
  ['6', 10, 480, {}, 200],
  ['15E', 45, 585, {}, 200],
] as const)(
  'B31.1, P-No. %s, %s mm, %s MPa: from memory',
  (pNumber, thicknessMillimetres, tensileMegapascals, percent, celsius) => {
    const one = row('ASME B31.1', { pNumber, thicknessMillimetres, tensileMegapascals }, percent);
    expect([one.computedCelsius, one.status]).toEqual([celsius, 'from memory']);
  },
);

test('the thicker part at the joint counts, and what a row needs is asked for', () => {
  expect(row('ASME B31.3:2014', {}).missing.join()).toContain('P-number');
  expect(row('ASME B31.3:2014', { pNumber: '5A' }).missing.join()).toMatch(/tensile/);
});
