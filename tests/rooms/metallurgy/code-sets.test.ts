/** The code of the job: whose methods govern, whose table is a floor, and what is asked for under it. */
import { expect, test } from 'vitest';
import type { MethodAnswer } from '../../../server/metallurgy/answer.ts';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { plainJoint, plainPart, plainProcedure } from '../../support/plain-joint.ts';

const answer = (joint: Joint, id: string): MethodAnswer => requirement(joint, []).methods.find((one) => one.id === id)!;
const governed = (joint: Joint) => {
  const { governing } = requirement(joint, []);
  return [governing.kind, governing.preheatMinimumCelsius];
};
const part = (changes: Partial<Joint['parts'][number]>) => ({ parts: [plainPart(changes)] });
const hydrogenControl = 'aws-d1-1-hydrogen-control';

test('under AWS D1.1 its own methods govern and method B only compares; high restraint: 150 °C', () => {
  const joint = plainJoint({ codeSet: 'AWS D1.1', restraint: 'high', units: 'metric', ...part({ awsCategory: 'B' }) });
  expect(governed(joint)).toEqual(['highest method', 150]);
  expect(answer(joint, 'en-1011-2-method-b')).toMatchObject({
    role: 'comparison only',
    standing: 'for comparison only: not of the chosen code (AWS D1.1)',
  });
});

test('under EN 1011-2 the hydrogen control of AWS D1.1 only compares, however high, unless the job binds it', () => {
  const joint = { codeSet: 'EN 1011-2', restraint: 'high', units: 'metric' } as const;
  expect(governed(plainJoint(joint))).toEqual(['highest method', 145]);
  expect(governed(plainJoint({ ...joint, bindingMethods: [hydrogenControl] }))).toEqual(['highest method', 150]);
  const procedure = { ...plainProcedure, preheatMinimumCelsius: 100 };
  expect(governed(plainJoint({ ...joint, procedure, bindingMethods: [hydrogenControl] }))).toEqual([
    'binding calculation',
    150,
  ]);
});

test('without a code a method that needs facts of its own is not missed while they are absent, and governs with them', () => {
  expect(answer(plainJoint(), hydrogenControl)).toMatchObject({ role: 'comparison only', applicable: 'no' });
  expect(requirement(plainJoint(), []).warnings.some((one) => one.method === hydrogenControl)).toBe(false);
  expect(governed(plainJoint({ restraint: 'high' }))).toEqual(['highest method', 150]);
});

test('under AWS D1.1 the restraint is asked for, and the metric bands are flagged where no unit system is stated', () => {
  const asked = requirement(plainJoint({ codeSet: 'AWS D1.1' }), []);
  expect(asked.governing.because).toContain('the restraint of the joint');
  const joint = plainJoint({ codeSet: 'AWS D1.1', restraint: 'low' });
  expect(answer(joint, hydrogenControl).flags[0]).toContain('the metric bands of the table are used');
  expect(answer({ ...joint, units: 'metric' }, hydrogenControl).flags).toEqual([]);
});

test('the zone that a person read off the diagram is shown with what it means; none is computed', () => {
  const notes = (joint: Joint) => answer(joint, hydrogenControl).notes!.join();
  const joint = plainJoint({ restraint: 'low' });
  expect(notes(joint)).not.toContain('zone');
  expect(notes({ ...joint, crackingZone: 'III' })).toContain('zone III, as stated: hydrogen control is required');
});

test('in a job in inches the cell is the printed Fahrenheit, never judged lower, and reads as printed', () => {
  const joint = plainJoint({ codeSet: 'AWS D1.1', restraint: 'medium', units: 'inch' });
  const { governing } = requirement(joint, []);
  expect(governing.preheatMinimumCelsius!).toBeGreaterThanOrEqual((280 - 32) / 1.8);
  expect(governing.preheatMinimumCelsius!).toBeLessThan((280 - 32) / 1.8 + 0.001);
  expect(governing.because).toContain('gives 280 °F');
});

test('the table of the chosen piping code raises a procedure; that of another code, and a recommended row, do not', () => {
  const low = { ...plainProcedure, preheatMinimumCelsius: 50 };
  const joint = (codeSet: NonNullable<Joint['codeSet']>, pNumber: '4' | '6') =>
    plainJoint({ codeSet, procedure: low, ...part({ pNumber }) });
  expect(governed(joint('ASME B31.3:2014', '4'))).toEqual(['code floor', 120]);
  expect(governed(joint('ASME B31.3:2010', '4'))).toEqual(['code floor', 149]);
  expect(governed(joint('EN 1011-2', '4'))).toEqual(['procedure', 50]);
  expect(governed(joint('ASME B31.3:2010', '6'))).toEqual(['procedure', 50]);
  expect(answer(joint('ASME B31.3:2010', '6'), 'asme-b31-3-2010').standing).toContain('recommended by the code');
});

test('a floor that cannot be read off the chosen table for want of a fact is told; so is a P-number without a row', () => {
  const told = (changes: Partial<Joint>) =>
    requirement(plainJoint({ procedure: plainProcedure, ...changes }), [])
      .warnings.filter((one) => one.method?.startsWith('asme-'))
      .map((one) => [one.kind, one.message]);
  const asked = told({ codeSet: 'ASME B31.3:2014' });
  expect(asked).toMatchObject([['missing fact', expect.stringContaining('the P-number')]]);
  const none = told({ codeSet: 'ASME B31.1', ...part({ pNumber: '8' }) });
  expect(none).toMatchObject([['out of range', expect.stringContaining('no row for P-No. 8')]]);
});

test('a value off a table just below a multiple of 5 does not lower what a formula is rounded up to', () => {
  // Method B gives 143.7, judged as 145; a chart's 144 is higher as computed and lower as judged.
  const chart = { method: 'works chart', chart: 'page 1', preheatMinimumCelsius: 144, role: 'may govern' } as const;
  expect(governed(plainJoint({ chartReadings: [chart] }))).toEqual(['highest method', 145]);
});

test('austenitic weld metal: no hydrogen method gives a number, and the qualified procedure is named', () => {
  const joint = plainJoint({ restraint: 'low', consumable: { hydrogen: { class: 'H5' }, deposit: 'austenitic' } });
  const { governing, methods } = requirement(joint, []);
  expect(governing.kind).toBe('none');
  expect(methods.filter((one) => one.computedCelsius !== undefined)).toEqual([]);
  expect(governing.because).toContain('the qualified procedure has to state the preheat');
});
