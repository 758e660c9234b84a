/**
 * What if: the same requirement on a joint that differs in one thing. The expected slopes are the derivatives of
 * the formula of EN 1011-2 method B, worked by hand; the joint is plate of CET 0.32725, 80 mm, HD 5, Q 1.5.
 */
import { expect, test } from 'vitest';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import { sensitivities, supposing, variables, whatIf, workingValue } from '../../../server/metallurgy/what-if.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const methodB = 'en-1011-2-method-b';
const joint = plainJoint();

test('the working point is the joint as it is', () => {
  const now = requirement(joint, []).governing.preheatMinimumCelsius;
  for (const variable of ['heat input', 'hydrogen', 'thickness'] as const) {
    const { working, points } = whatIf(joint, variable, []);
    expect(working?.value).toBe(workingValue(joint, variable));
    expect(working?.governingCelsius).toBe(now);
    expect(points.find(({ value }) => value === working?.value)).toEqual(working);
  }
});

test('every point is the requirement of that joint, and nothing else', () => {
  for (const variable of variables)
    for (const point of whatIf(joint, variable, []).points.filter((_, index) => index % 9 === 0)) {
      const { governing, methods } = requirement(supposing(joint, variable, point.value), []);
      expect(point.governingCelsius).toBe(governing.preheatMinimumCelsius);
      expect(point.methods.map(({ celsius }) => celsius)).toEqual(
        methods.flatMap(({ computedCelsius }) => (computedCelsius === undefined ? [] : [computedCelsius])),
      );
    }
});

test('a method is silent beyond its range, extended where it may be, and its ends are told and drawn', () => {
  const thickness = whatIf(joint, 'thickness', []);
  expect(thickness.ranges.find(({ id }) => id === methodB)).toMatchObject({
    minimum: 10,
    maximum: 90,
    below: 'refused',
    above: 'extended',
  });
  const at = (value: number) => thickness.points.find((point) => point.value === value)?.methods.find(isB);
  expect(at(90)?.extended).toBe(false);
  expect(at(150)?.extended).toBe(true);
  expect(thickness.points.filter(({ value }) => value < 10).flatMap(({ methods }) => methods.filter(isB))).toEqual([]);
  const heat = whatIf(joint, 'heat input', []);
  expect(heat.points.some(({ value }) => value === 0.5)).toBe(true);
  expect(heat.points.filter(({ value }) => value > 4).flatMap(({ methods }) => methods.filter(isB))).toEqual([]);
});

test('slopes at the working point are the derivatives of the formula', () => {
  const of = (variable: string) => sensitivities(joint, []).find((one) => one.variable === variable && isB(one));
  const cet = 0.32725;
  // d/dQ = 53·CET − 32, per 0.1 kJ/mm.
  expect(of('heat input')?.kelvin).toBeCloseTo((53 * cet - 32) * 0.1, 3);
  // d/dHD = 62·0.35·HD^(−0.65), per 1 ml/100 g.
  expect(of('hydrogen')?.kelvin).toBeCloseTo(62 * 0.35 * 5 ** -0.65, 2);
  // d/dd = (160/35)·(1 − tanh²(d/35)), per 10 mm.
  expect(of('thickness')?.kelvin).toBeCloseTo((160 / 35) * (1 - Math.tanh(80 / 35) ** 2) * 10, 2);
  expect(of('hydrogen')?.side).toBe('both');
});

test('a table has no slope: beside the end of a band it is told what one whole step more brings', () => {
  // AWS D1.1 prequalified table, category B (verified): over 38 to 65 mm 65 °C, over 65 mm 110 °C.
  const parts = joint.parts.map((part) => ({ ...part, thicknessMillimetres: 65, awsCategory: 'B' as const }));
  const table = sensitivities({ ...joint, codeSet: 'AWS D1.1', units: 'metric', parts }, []).find(
    ({ id, variable }) => id === 'aws-d1-1-prequalified' && variable === 'thickness',
  );
  expect(table).toMatchObject({ kelvin: 45, per: 10, stepwise: true });
});

test('what matters most stands first, and at the end of a range one side is looked at and said so', () => {
  const list = sensitivities(joint, []).map(({ kelvin }) => Math.abs(kelvin));
  expect(list).toEqual([...list].sort((a, b) => b - a));
  const atEnd = { ...joint, heatInput: { kilojoulesPerMillimetre: 4 } };
  expect(sensitivities(atEnd, []).find((one) => one.variable === 'heat input' && isB(one))?.side).toBe('below');
});

test('what the joint does not state has a curve and no working point', () => {
  const silent = { ...joint, heatInput: 'not stated' as const };
  const { working, points } = whatIf(silent, 'heat input', []);
  expect(working).toBeUndefined();
  expect(points.length).toBeGreaterThan(20);
  expect(sensitivities(silent, []).some(({ variable }) => variable === 'heat input')).toBe(false);
});

const isB = ({ id }: { readonly id: string }): boolean => id === methodB;
