/** What a person read off a chart: it stands as entered, in the role that was stated, and is held against the joint. */
import { expect, test } from 'vitest';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { readJoint } from '../../../server/weld/read-joint.ts';
import { plainJoint, plainPart } from '../../support/plain-joint.ts';

type Reading = NonNullable<Joint['chartReadings']>[number];
const methodA = (changes: Partial<Reading> = {}): Reading => ({
  method: 'EN 1011-2 method A',
  chart: 'figure C.2, EN 1011-2:2001',
  scale: 'D',
  combinedThicknessMillimetres: 160,
  heatInputKilojoulesPerMillimetre: 1.5,
  carbonEquivalentPercent: 0.44,
  preheatMinimumCelsius: 155,
  role: 'may govern',
  ...changes,
});
const answers = (joint: Joint, id: string) => requirement(joint, []).methods.filter((one) => one.id === id);
const id = 'en-1011-2-method-a';

test('without a reading method A says with what to read the figure, and neither governs nor warns', () => {
  const joint = plainJoint({ codeSet: 'EN 1011-2' });
  const [one] = answers(joint, id);
  expect(one).toMatchObject({ role: 'comparison only', applicable: 'yes' });
  expect(one!.computedCelsius).toBeUndefined();
  expect(one!.indication).toContain('CE 0.438, hydrogen scale D, combined thickness 160 mm, heat input 1.5 kJ/mm');
  expect(one!.notes!.join()).toContain('up to 50 mm of combined thickness without preheat');
  expect(requirement(joint, []).warnings.some((warning) => warning.method === id)).toBe(false);
});

test('what method A needs and nobody stated is named, not guessed', () => {
  const [one] = answers(plainJoint({ consumable: { hydrogen: 'not stated' }, heatInput: 'not stated' }), id);
  expect(one!.indication).toContain('hydrogen not stated');
  expect(one!.indication).toContain('the heat input (not stated)');
  expect(one!.notes).toBeUndefined();
});

test('a reading of method A governs as it stands, entered by a person, without rounding', () => {
  const joint = plainJoint({ chartReadings: [methodA({ preheatMinimumCelsius: 157 })] });
  const [one] = answers(joint, id);
  expect(one).toMatchObject({
    status: 'entered',
    role: 'may govern',
    computedCelsius: 157,
    tabulated: true,
    flags: [],
  });
  const { governing } = requirement(joint, []);
  expect([governing.kind, governing.preheatMinimumCelsius]).toEqual(['highest method', 157]);
});

test('a reading for comparison only never governs', () => {
  const { governing } = requirement(plainJoint({ chartReadings: [methodA({ role: 'comparison only' })] }), []);
  expect(governing.preheatMinimumCelsius).toBe(145);
});

test('a reading that the job has outgrown is flagged: more thickness or CE, or less heat, than it was read for', () => {
  const stale = methodA({
    combinedThicknessMillimetres: 100,
    carbonEquivalentPercent: 0.43,
    heatInputKilojoulesPerMillimetre: 2,
  });
  const [one] = answers(plainJoint({ chartReadings: [stale] }), id);
  expect(one!.flags).toHaveLength(3);
  for (const flag of one!.flags) expect(flag).toContain('read it again');
  const { combinedThicknessMillimetres: _none, ...bare } = methodA();
  expect(answers(plainJoint({ chartReadings: [bare] }), id)[0]!.flags[0]).toContain('does not say for which combined');
});

test('a reading for one part counts for it alone, one for the joint for the parts that have none of their own', () => {
  const parts = [plainPart({ id: 'a', side: 'A' }), plainPart({ id: 'b', side: 'B' })];
  const joint = plainJoint({
    parts,
    chartReadings: [methodA({ part: 'b', preheatMinimumCelsius: 170 }), methodA({ preheatMinimumCelsius: 150 })],
  });
  expect(answers(joint, id).map((one) => [one.part, one.computedCelsius])).toEqual([
    ['a', 150],
    ['b', 170],
  ]);
});

test('a reading of another chart is a method of its own, with an id that stays', () => {
  const joint = plainJoint({ chartReadings: [methodA({ method: 'works chart 12', preheatMinimumCelsius: 180 })] });
  expect(answers(joint, 'chart: works chart 12')).toMatchObject([{ computedCelsius: 180, status: 'entered' }]);
  expect(answers(joint, id)[0]!.computedCelsius).toBeUndefined();
  expect(requirement(joint, []).governing.preheatMinimumCelsius).toBe(180);
});

test('a binding method A without a reading leaves no minimum, and says what to read', () => {
  const { governing } = requirement(plainJoint({ bindingMethods: [id] }), []);
  expect(governing.kind).toBe('none');
  expect(governing.because).toContain('read figure C.2');
});

test('a reading for a part that is not there, or a second one for the same part, is refused at its field', () => {
  const fields = (chartReadings: readonly Reading[]) => {
    const read = readJoint({ ...plainJoint(), chartReadings });
    return 'problems' in read ? read.problems.map((one) => one.field) : [];
  };
  expect(fields([methodA({ part: 'plate' }), methodA()])).toEqual([]);
  expect(fields([methodA({ part: 'lid' })])).toEqual(['chartReadings.0.part']);
  expect(fields([methodA(), methodA()])).toEqual(['chartReadings.1.method']);
});
