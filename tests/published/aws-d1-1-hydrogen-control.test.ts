/**
 * AWS D1.1, hydrogen control: index, groups, look-up, table by restraint. The formula, the groups and the table are
 * from memory; two cells are verified (forum answers of practitioners that quote the annex of 2004): look-up level H2
 * with Pcm below 0.28 gives D; high restraint, 1 1/2 to 3 in, group D gives 300 F. The index values are computed from
 * the formula. The consistency of the remembered tables is held as properties.
 */
import { describe, expect, test } from 'vitest';
import { cellOf, type Restraint, thicknessBand } from '../../server/metallurgy/methods/aws-d1-1-restraint-table.ts';
import {
  groupByIndex,
  groupByTable,
  groups,
  higherGroup,
  hydrogenLevel,
  roundedIndex,
  susceptibilityIndex,
} from '../../server/metallurgy/methods/susceptibility.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { plainJoint } from '../support/plain-joint.ts';

describe('susceptibility index, computed from the formula', () => {
  test.each([
    ['SI-1', 0.2, 4, 3.0021, 'A'],
    ['SI-2', 0.25, 5, 3.699, 'C'],
    ['SI-3', 0.25, 8, 3.9031, 'C'],
    ['SI-4', 0.3, 8, 4.5031, 'D'],
    ['SI-5', 0.35, 10, 5.2, 'F'],
    ['SI-6', 0.22, 16, 3.8441, 'C'],
  ] as const)('%s', (_, pcm, h, index, group) => {
    expect(susceptibilityIndex(pcm, h)).toBeCloseTo(index, 4);
    expect(groupByIndex(susceptibilityIndex(pcm, h))).toBe(group);
  });

  test('above 7.0 there is no group', () => {
    expect(groupByIndex(7.04)).toBe('G');
    expect(groupByIndex(7.06)).toBeUndefined();
    // P91 of the sixth scenario: 12·0.6635 + log10(4) = 8.564.
    expect(roundedIndex(susceptibilityIndex(0.6635, 4))).toBe(8.6);
    expect(groupByIndex(susceptibilityIndex(0.6635, 4))).toBeUndefined();
  });
});

test('the verified cell of the look-up: level H2, Pcm below 0.28, group D', () => {
  expect(groupByTable(0.27, 'H2')?.group).toBe('D');
});

test('levels of hydrogen: up to 5, up to 10, not controlled', () => {
  expect([4, 5, 5.1, 10, 10.1, 30, 35].map((hd) => hydrogenLevel(hd).name)).toEqual([
    'H1',
    'H1',
    'H2',
    'H2',
    'H3',
    'H3',
    'H3',
  ]);
  expect([5, 10, 16, 35].map((hd) => hydrogenLevel(hd).h)).toEqual([5, 10, 30, 35]);
});

test('where formula and look-up differ, the higher group counts and both are shown', () => {
  // H1 with Pcm 0.37: the index 12·0.37 + log10(5) = 5.139 is F, the look-up says E.
  expect(groupByIndex(susceptibilityIndex(0.37, 5))).toBe('F');
  expect(groupByTable(0.37, 'H1')?.group).toBe('E');
  expect(higherGroup('F', 'E')).toBe('F');
  const percent = { C: 0.37, Si: 0, Mn: 0, Cu: 0, Cr: 0, Ni: 0, Mo: 0, V: 0, B: 0 };
  const joint = plainJoint({ restraint: 'low', codeSet: 'AWS D1.1', units: 'metric' });
  const parts = [{ ...joint.parts[0]!, analyses: [{ origin: 'heat certificate' as const, percent }] }];
  const one = requirement({ ...joint, parts }, []).methods.find(({ id }) => id === 'aws-d1-1-hydrogen-control')!;
  expect(one.computedCelsius).toBe(140);
  expect(one.notes?.join(' ')).toContain('group F by the index 5.1, group E by the look-up table');
});

describe('the table by restraint', () => {
  const restraints: readonly Restraint[] = ['low', 'medium', 'high'];
  const bands = [0, 1, 2, 3, 4];
  const value = (system: 'metric' | 'inch', restraint: Restraint, band: number, at: number): number =>
    cellOf(system, restraint, band, groups[at]!).degrees;

  test('the verified cell: high restraint, 1 1/2 to 3 in, group D, 300 F', () => {
    expect(cellOf('inch', 'high', thicknessBand('inch', 2 * 25.4), 'D')).toEqual({ degrees: 300, orLower: false });
  });

  test('all 105 pairs of Fahrenheit and Celsius agree within 3.5 C', () => {
    let pairs = 0;
    for (const restraint of restraints)
      for (const band of bands)
        for (let at = 0; at < groups.length; at += 1) {
          const celsius = (value('inch', restraint, band, at) - 32) / 1.8;
          expect(Math.abs(celsius - value('metric', restraint, band, at))).toBeLessThanOrEqual(3.5);
          pairs += 1;
        }
    expect(pairs).toBe(105);
  });

  test('rises with group, with thickness and with restraint, in both systems', () => {
    for (const system of ['metric', 'inch'] as const)
      for (const [r, restraint] of restraints.entries())
        for (const band of bands)
          for (let at = 0; at < groups.length; at += 1) {
            const here = value(system, restraint, band, at);
            if (at > 0) expect(here).toBeGreaterThanOrEqual(value(system, restraint, band, at - 1));
            if (band > 0) expect(here).toBeGreaterThanOrEqual(value(system, restraint, band - 1, at));
            if (r > 0) expect(here).toBeGreaterThanOrEqual(value(system, restraints[r - 1]!, band, at));
          }
  });

  test('ends of the bands: metric and inch do not agree at 20, 38 and 75 mm', () => {
    expect([9.9, 10, 20, 20.1, 38, 38.1, 75, 75.1].map((mm) => thicknessBand('metric', mm))).toEqual([
      0, 1, 1, 2, 2, 3, 3, 4,
    ]);
    // 20 mm is 0.787 in, beyond 3/4; 38 mm is 1.496 in, within 1 1/2; 76.2 mm is 3 in.
    expect([9.5, 9.525, 19.05, 20, 38, 38.1, 76.2, 76.3].map((mm) => thicknessBand('inch', mm))).toEqual([
      0, 1, 1, 2, 2, 2, 3, 4,
    ]);
  });
});
