/**
 * AWS D1.1, prequalified minimum preheat and interpass table. Categories A and B: verified on reproduced pages of
 * AWS D1.1:2015 table 3.3 and on table 3-1 of the United States Army design manual TI 809-26 (2000), which prints
 * 0/66/107/150 and 0/10/66/107 C. C and D second-hand. Edges computed from the printed bands.
 */
import { expect, test } from 'vitest';
import { prequalifiedMinimum } from '../../server/metallurgy/methods/aws-d1-1-prequalified.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import { minimumText } from '../../server/wording/requirement.ts';
import { plainJoint } from '../support/plain-joint.ts';

const thicknesses = [10, 30, 50, 100];

test.each([
  ['A', [0, 65, 110, 150], [32, 150, 225, 300]],
  ['B', [0, 10, 65, 110], [32, 50, 150, 225]],
  ['C', [10, 65, 110, 150], [50, 150, 225, 300]],
  ['D', [0, 0, 0, 0], [32, 32, 32, 32]],
] as const)('category %s in both systems', (category, celsius, fahrenheit) => {
  expect(thicknesses.map((mm) => prequalifiedMinimum(category, 'metric', mm))).toEqual(celsius);
  expect(thicknesses.map((mm) => prequalifiedMinimum(category, 'inch', mm))).toEqual(fahrenheit);
});

test('the army manual agrees within a degree and a half of Celsius', () => {
  const manual = { A: [0, 66, 107, 150], B: [0, 10, 66, 107] } as const;
  for (const category of ['A', 'B'] as const)
    thicknesses.forEach((mm, at) => {
      expect(Math.abs(prequalifiedMinimum(category, 'metric', mm) - manual[category][at]!)).toBeLessThanOrEqual(3);
      const fahrenheit = prequalifiedMinimum(category, 'inch', mm);
      expect(Math.abs((fahrenheit - 32) / 1.8 - manual[category][at]!)).toBeLessThanOrEqual(1.5);
    });
});

test('65 mm lies in one band by millimetres and in the next by inches; so do 20 mm', () => {
  expect(prequalifiedMinimum('B', 'metric', 65)).toBe(65);
  expect(prequalifiedMinimum('B', 'inch', 65)).toBe(225);
  expect(prequalifiedMinimum('B', 'metric', 20)).toBe(0);
  expect(prequalifiedMinimum('B', 'inch', 20)).toBe(50);
  expect(prequalifiedMinimum('B', 'inch', 63.5)).toBe(150);
  expect(prequalifiedMinimum('B', 'inch', 38)).toBe(50);
});

test('in a job in inches the printed Fahrenheit is what is judged and read, never less', () => {
  const joint = plainJoint({ units: 'inch', codeSet: 'AWS D1.1' });
  const parts = joint.parts.map((part) => ({ ...part, awsCategory: 'B' as const, thicknessMillimetres: 65 }));
  const answer = requirement({ ...joint, parts }, []);
  expect(answer.governing.kind).toBe('highest method');
  expect(minimumText(answer)).toBe('225 °F');
  expect(answer.governing.preheatMinimumCelsius! * 1.8 + 32).toBeGreaterThanOrEqual(225);
});

test('category D is for hydrogen of class H8 or lower (article of R. S. Funderburk)', () => {
  const joint = plainJoint({ codeSet: 'AWS D1.1', consumable: { hydrogen: { class: 'H16' } } });
  const parts = joint.parts.map((part) => ({ ...part, awsCategory: 'D' as const }));
  const one = requirement({ ...joint, parts }, []).methods.find(({ id }) => id === 'aws-d1-1-prequalified')!;
  expect(one.applicable).toBe('no');
  expect(one.reason).toContain('H8');
});
