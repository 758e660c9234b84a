/** What governs: procedure, code floor, binding calculation, highest method, no preheat needed, none. */
import { expect, test } from 'vitest';
import type { Acceptance, RequirementWarning } from '../../../server/metallurgy/answer.ts';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { plainJoint, plainPart, plainProcedure, withPercent } from '../../support/plain-joint.ts';

const methodB = 'en-1011-2-method-b';
const extended: Acceptance = {
  subject: 'extended range',
  method: methodB,
  who: 'A. Example',
};
const below: Acceptance = {
  subject: 'procedure below calculation',
  who: 'B. Example',
};

const governed = (joint: Joint, acceptances: readonly Acceptance[] = []) => {
  const { governing } = requirement(joint, acceptances);
  return [governing.kind, governing.preheatMinimumCelsius];
};
const warned = (joint: Joint, kind: RequirementWarning['kind'], acceptances: readonly Acceptance[] = []) =>
  requirement(joint, acceptances).warnings.filter((one) => one.kind === kind);
const procedureOf = (changes: Partial<NonNullable<Joint['procedure']>>) => ({
  ...plainProcedure,
  ...changes,
});
const floor = (preheatMinimumCelsius: number) => ({
  preheatMinimumCelsius,
  source: 'Code X table 1',
});

test('without a procedure the highest method governs, rounded up to the next 5 °C and said so', () => {
  const { governing } = requirement(plainJoint(), []);
  expect(governing.kind).toBe('highest method');
  expect(governing.computedCelsius).toBeCloseTo(143.735, 2);
  expect(governing.preheatMinimumCelsius).toBe(145);
  expect(governing.because).toContain('143.7 °C');
  expect(governing.because).toContain('rounded up to the next 5 °C: 145 °C');
});

test('with a procedure its value is judged as it stands, not rounded, also where the calculation is lower', () => {
  expect(governed(plainJoint({ procedure: procedureOf({ preheatMinimumCelsius: 152.5 }) }))).toEqual([
    'procedure',
    152.5,
  ]);
});

test('a procedure at the calculated value is not below it', () => {
  const { computedCelsius } = requirement(plainJoint(), []).governing;
  const at = plainJoint({
    procedure: procedureOf({ preheatMinimumCelsius: computedCelsius! }),
  });
  expect(warned(at, 'procedure below calculation')).toEqual([]);
});

test('a procedure below the calculation is judged, and wants a named answer until it has one', () => {
  const joint = plainJoint({
    procedure: procedureOf({ preheatMinimumCelsius: 100 }),
  });
  expect(governed(joint)).toEqual(['procedure', 100]);
  const [open] = warned(joint, 'procedure below calculation');
  expect(open).toMatchObject({ wantsAnswer: true, method: methodB });
  const [answered] = warned(joint, 'procedure below calculation', [below]);
  expect(answered).toMatchObject({ wantsAnswer: false });
  expect(answered!.message).toContain('B. Example');
});

test('a code floor raises the procedure and does not lower it', () => {
  const joint = (celsius: number) => plainJoint({ procedure: plainProcedure, codeFloor: floor(celsius) });
  expect(governed(joint(175))).toEqual(['code floor', 175]);
  expect(governed(joint(150))).toEqual(['procedure', 150]);
  expect(governed(joint(10))).toEqual(['procedure', 150]);
});

test('a code floor raises the calculation', () => {
  expect(governed(plainJoint({ codeFloor: floor(160) }))).toEqual(['code floor', 160]);
  expect(governed(plainJoint({ codeFloor: floor(145) }))).toEqual(['highest method', 145]);
});

test('a calculation that the job declares binding raises the procedure, rounded up', () => {
  const procedure = procedureOf({ preheatMinimumCelsius: 100 });
  expect(governed(plainJoint({ procedure, bindingMethods: [methodB] }))).toEqual(['binding calculation', 145]);
  const higher = plainJoint({
    procedure: plainProcedure,
    bindingMethods: [methodB],
  });
  expect(governed(higher)).toEqual(['procedure', 150]);
});

test('once raised to the calculation a low procedure is still named, but wants no answer', () => {
  const joint = plainJoint({
    procedure: procedureOf({ preheatMinimumCelsius: 100 }),
    bindingMethods: [methodB],
  });
  expect(warned(joint, 'procedure below calculation')).toMatchObject([{ wantsAnswer: false }]);
});

test('a binding calculation that gives no number leaves no minimum, and says what to do', () => {
  const silent = plainJoint({
    procedure: plainProcedure,
    bindingMethods: [methodB],
    heatInput: 'not stated',
  });
  const { governing } = requirement(silent, []);
  expect(governing.kind).toBe('none');
  expect(governing.because).toContain('the heat input');
  const unknown = requirement(plainJoint({ procedure: plainProcedure, bindingMethods: ['no-such'] }), []).governing;
  expect(unknown.kind).toBe('none');
  expect(unknown.because).toContain('"no-such"');
});

test('an extended value governs only once accepted; an acceptance of another method does not count', () => {
  const joint = plainJoint({
    parts: [plainPart({ thicknessMillimetres: 120 })],
  });
  expect(governed(joint)).toEqual(['none', undefined]);
  expect(governed(joint, [{ ...extended, method: 'another' }])).toEqual(['none', undefined]);
  expect(governed(joint, [extended])).toEqual(['highest method', 150]);
  expect(warned(joint, 'extended range not accepted', [extended])).toEqual([]);
  expect(warned(joint, 'out of range', [extended])[0]!.message).toContain('accepted by A. Example');
});

test('with a procedure an extended value informs and wants no answer, unless the job declares it binding', () => {
  const thick = {
    parts: [plainPart({ thicknessMillimetres: 120 })],
    procedure: plainProcedure,
  };
  expect(warned(plainJoint(thick), 'extended range not accepted')).toMatchObject([{ wantsAnswer: false }]);
  const binding = plainJoint({ ...thick, bindingMethods: [methodB] });
  expect(warned(binding, 'extended range not accepted')).toMatchObject([{ wantsAnswer: true }]);
  expect(governed(binding)).toEqual(['procedure', 150]);
});

test('no preheat needed has its own kind and words; 20 °C and dry is judged', () => {
  const soft = plainPart({
    thicknessMillimetres: 20,
    analyses: [withPercent({ C: 0.1, Mn: 1.2 })],
  });
  const { governing, methods } = requirement(plainJoint({ parts: [soft] }), []);
  expect(methods[0]).toMatchObject({
    applicable: 'yes',
    noPreheatNeeded: true,
  });
  expect(methods[0]!.preheatMinimumCelsius).toBeUndefined();
  expect(methods[0]!.computedCelsius).toBeLessThan(20);
  expect(governing.kind).toBe('no preheat needed');
  expect(governing.preheatMinimumCelsius).toBe(20);
  expect(governing.because).toContain('dry and at least 20 °C');
  expect(governed(plainJoint({ parts: [soft], codeFloor: floor(79) }))).toEqual(['code floor', 79]);
});

test('of two parts the more demanding governs, in either order', () => {
  const mild = plainPart({ id: 'mild', side: 'A', thicknessMillimetres: 30 });
  const hard = plainPart({ id: 'hard', side: 'B' });
  for (const parts of [
    [mild, hard],
    [hard, mild],
  ]) {
    const { governing } = requirement(plainJoint({ parts }), []);
    expect(governing.preheatMinimumCelsius).toBe(145);
    expect(governing.because).toContain('part hard');
    expect(governing.because).toContain('the most demanding of the parts');
  }
});

test('a part without a number leaves the joint without one: the more demanding cannot be known', () => {
  const known = plainPart({ id: 'known', side: 'A' });
  const unknown = plainPart({ id: 'unknown', side: 'B', analyses: [] });
  const { governing } = requirement(plainJoint({ parts: [known, unknown] }), []);
  expect(governing.kind).toBe('none');
  expect(governing.because).toContain('part unknown');
  expect(governing.computedCelsius).toBeCloseTo(143.735, 2);
});

test('a code floor alone never governs; it is shown', () => {
  const joint = plainJoint({
    consumable: { hydrogen: 'not stated' },
    codeFloor: floor(120),
  });
  const { governing } = requirement(joint, []);
  expect(governing.kind).toBe('none');
  expect(governing.because).toContain('120 °C');
  expect(governing.because).toContain('Enter what is missing');
});

test('a procedure that states no minimum leaves the calculation, and is named', () => {
  const { preheatMinimumCelsius: _none, ...rest } = plainProcedure;
  const joint = plainJoint({ procedure: rest });
  expect(governed(joint)).toEqual(['highest method', 145]);
  expect(warned(joint, 'missing fact').some((one) => one.message.includes('states no minimum preheat'))).toBe(true);
});

test('a procedure is judged also where nothing can be calculated, and the missing facts are still asked for', () => {
  const joint = plainJoint({
    procedure: plainProcedure,
    consumable: { hydrogen: 'not stated' },
  });
  expect(governed(joint)).toEqual(['procedure', 150]);
  expect(warned(joint, 'missing fact')[0]!.message).toContain('diffusible hydrogen');
});

test('a minimum above the maximum interpass or above the highest temperature is caught', () => {
  const procedure = procedureOf({
    preheatMinimumCelsius: 100,
    interpassMaximumCelsius: 140,
    highestCelsius: 142,
  });
  const joint = plainJoint({ procedure, bindingMethods: [methodB] });
  const messages = warned(joint, 'minimum above maximum interpass').map((one) => one.message);
  expect(messages).toHaveLength(2);
  expect(messages[0]).toContain('maximum interpass temperature of 140 °C');
  expect(messages[1]).toContain('highest temperature allowed of 142 °C');
  expect(warned(plainJoint({ procedure: plainProcedure }), 'minimum above maximum interpass')).toEqual([]);
});
