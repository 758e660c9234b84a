/**
 * ASME B31.3 table 330.1.1 in the editions of 2014 and 2010: public copies of the pages, verified. Look-ups are exact.
 */
import { expect, test } from 'vitest';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { pipingRow } from '../support/piping-row.ts';
import { plainJoint } from '../support/plain-joint.ts';

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
    const one = pipingRow('ASME B31.3:2014', { pNumber, thicknessMillimetres, tensileMegapascals }, percent);
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
    const one = pipingRow('ASME B31.3:2010', { pNumber, thicknessMillimetres, tensileMegapascals });
    expect([one.computedCelsius, one.role]).toEqual([celsius, role]);
  },
);

test('the thicker part at the joint counts for both, and what a row needs is asked for', () => {
  const joint = plainJoint({ codeSet: 'ASME B31.3:2014', units: 'metric' });
  const [part] = joint.parts;
  const ofParts = (...thicknesses: number[]): (number | undefined)[] => {
    const parts = thicknesses.map((thicknessMillimetres, index) => ({
      ...part!,
      id: `part ${index}`,
      pNumber: '3' as const,
      tensileMegapascals: 450,
      thicknessMillimetres,
    }));
    return requirement({ ...joint, parts }, []).methods.flatMap(({ id, computedCelsius }) =>
      id === 'asme-b31-3-2014' ? [computedCelsius] : [],
    );
  };
  expect(ofParts(10, 10)).toEqual([10, 10]);
  expect(ofParts(10, 20)).toEqual([95, 95]);
  expect(pipingRow('ASME B31.3:2014', {}).missing.join()).toContain('P-number');
  expect(pipingRow('ASME B31.3:2014', { pNumber: '5A' }).missing.join()).toMatch(/tensile/);
});
