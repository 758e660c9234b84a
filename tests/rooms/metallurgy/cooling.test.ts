/** Cooling of a joint: what it asks for, what it refuses, both ends of a shape factor, and the window of heat input. */
import { expect, test } from 'vitest';
import { cooling } from '../../../server/metallurgy/cooling.ts';
import { windowOverRows } from '../../../server/metallurgy/cooling-table.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { Part } from '../../../server/weld/part.ts';
import { plainJoint, plainPart, plainProcedure, withPercent } from '../../support/plain-joint.ts';

const butt = 'between runs of a butt weld' as const;
const first = (joint: Partial<Joint>, part: Partial<Part> = {}, minimum: number | undefined = 145) =>
  cooling(plainJoint({ ...joint, parts: [plainPart(part)] }), minimum).parts[0]!;

test('80 mm at the computed 143.735 °C and 1.5 kJ/mm: 10.3609 s, transition at 19.9969 mm (computed from the formulas)', () => {
  const [row] = first({ weldShape: butt }, {}, 143.735).rows;
  expect(row!.at).toBe('minimum preheat');
  expect(row!.found!.seconds.lowest).toBeCloseTo(10.3609, 3);
  expect(row!.found!.seconds.highest).toBeCloseTo(10.3609, 3);
  expect(row!.found!.transitionMillimetres.lowest).toBeCloseTo(19.9969, 3);
  expect(row!.found!.flow).toBe('three-dimensional');
});

test('the shape of the weld, the minimum and the heat input are asked for', () => {
  expect(first({}).missing).toEqual(['the shape of the weld (run on plate, butt weld, fillet)']);
  const nothing = cooling(plainJoint({ heatInput: 'not stated' }), undefined).parts[0]!;
  expect(nothing).toMatchObject({ applicable: 'no', rows: [] });
  expect(nothing.missing).toHaveLength(3);
});

test('without a heat input a window still says which heat input it allows', () => {
  const part = first(
    { weldShape: butt, heatInput: 'not stated', coolingSeconds: { minimum: 10, maximum: 25 } },
    {},
    150,
  );
  expect(part.applicable).toBe('yes');
  expect(part.missing).toHaveLength(1);
  expect(part.rows[0]).not.toHaveProperty('found');
  expect(part.rows[0]!.allowed!.minimum).toBeCloseTo(1.4161, 3);
  expect(part.rows[0]!.allowed!.maximum).toBeCloseTo(3.5403, 3);
});

test('only unalloyed and low-alloy steel, by kind, by P-number and by what the analysis reports', () => {
  for (const part of [{ kind: 'austenitic' }, { pNumber: '8' }, { analyses: [withPercent({ Cr: 8.75 })] }] as const) {
    const refused = first({ weldShape: butt }, {
      ...part,
      ...('analyses' in part ? { analyses: [...part.analyses] } : {}),
    } as Partial<Part>);
    expect(refused.applicable).toBe('no');
    expect(refused.reason).toContain('low-alloy steel only');
  }
  expect(first({ weldShape: butt }, { analyses: [withPercent({ Cr: 2.25 })] }).applicable).toBe('yes');
});

test('where nothing says what steel it is, that is said', () => {
  expect(first({ weldShape: butt }, { analyses: [] }).flags.join()).toContain('nothing says what steel');
  expect(first({ weldShape: butt }, { analyses: [], kind: 'Cr-Mo' }).flags.join()).not.toContain('nothing says');
});

test('from 500 °C on it refuses, and no row of the table reaches there', () => {
  expect(first({ weldShape: butt }, {}, 500).reason).toContain('500 °C');
  expect(first({ weldShape: butt }, {}, 450).rows.map((row) => row.celsius)).toEqual([450]);
});

test('both ends of the shape factor of a fillet on a T-joint stay visible', () => {
  const part = first({ weldShape: 'fillet on a T-joint' }, { thicknessMillimetres: 12 }, 125);
  const { seconds } = part.rows[0]!.found!;
  // TC-7, computed: 13.006 s with F2 0.45, 19.365 s with 0.67.
  expect(seconds.lowest).toBeCloseTo(13.006, 2);
  expect(seconds.highest).toBeCloseTo(19.365, 2);
  expect(part.terms.map((one) => one.name)).toContain('two-dimensional, F2 0.67');
  expect(part.flags.join()).toContain('0.45 to 0.67');
});

test('the hotter the run begins, the slower it cools: the table runs from minimum preheat to maximum interpass', () => {
  const part = first(
    { weldShape: butt, procedure: plainProcedure, coolingSeconds: { minimum: 10, maximum: 12 } },
    {},
    150,
  );
  expect(part.rows.map((row) => row.celsius)).toEqual([150, 175, 200, 225, 250]);
  expect(part.rows.map((row) => row.at)).toEqual([
    'minimum preheat',
    'between',
    'between',
    'between',
    'maximum interpass',
  ]);
  expect(part.rows[0]!.found!.window).toBe('inside');
  expect(part.rows.at(-1)!.found!.window).toBe('too slow');
  const whole = windowOverRows(part.rows)!;
  expect(whole.minimum).toBe(part.rows[0]!.allowed!.minimum);
  expect(whole.maximum).toBe(part.rows.at(-1)!.allowed!.maximum);
  // 100 K of interpass leave no heat input that keeps 10 to 12 s, and the numbers show it.
  expect(whole.minimum).toBeGreaterThan(whole.maximum);
});

test('parts of different thickness are worked each by itself', () => {
  const parts = [plainPart(), plainPart({ id: 'thin', thicknessMillimetres: 10 })];
  const both = cooling(plainJoint({ weldShape: butt, parts }), 145).parts;
  expect(both.map((one) => one.rows[0]!.found!.flow)).toEqual(['three-dimensional', 'two-dimensional']);
});
