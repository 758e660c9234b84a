/** Method B on whole joints: where it refuses, where it extends, what it asks for, and the rule of the weld metal. */
import { expect, test } from 'vitest';
import type { MethodAnswer } from '../../../server/metallurgy/answer.ts';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { plainAnalysis, plainJoint, plainPart, withPercent } from '../../support/plain-joint.ts';

const answerOf = (changes: Partial<Joint>): MethodAnswer => requirement(plainJoint(changes), []).methods[0]!;
const cetOf = (answer: MethodAnswer) => answer.inputs.find((input) => input.name === 'CET')!;
const hydrogen = (millilitresPer100Grams: number) => ({
  consumable: { hydrogen: { millilitresPer100Grams } },
});
const heat = (kilojoulesPerMillimetre: number) => ({
  heatInput: { kilojoulesPerMillimetre },
});
const thick = (thicknessMillimetres: number) => ({
  parts: [plainPart({ thicknessMillimetres })],
});
const analysed = (percent: Parameters<typeof withPercent>[0]) => ({
  parts: [plainPart({ analyses: [withPercent(percent)] })],
});

const refusals: readonly [string, Partial<Joint>, string][] = [
  ['hydrogen above 20', hydrogen(20.1), 'diffusible hydrogen 20.1 ml/100 g is above the range 1 to 20'],
  ['hydrogen below 1', hydrogen(0.9), 'diffusible hydrogen 0.9 ml/100 g is below'],
  ['heat input above 4', heat(4.1), 'heat input 4.1 kJ/mm is above the range 0.5 to 4'],
  ['heat input below 0.5', heat(0.4), 'heat input 0.4 kJ/mm is below'],
  ['thickness below 10 mm', thick(9.9), 'plate thickness 9.9 mm is below the range 10 to 90 mm'],
  ['CET above 0.5', analysed({ C: 0.32, Mn: 1.9, Cr: 0.5 }), 'CET 0.5'],
  ['CET below 0.2', analysed({ C: 0.05, Mn: 0.6 }), 'CET 0.1'],
  ['composition', analysed({ V: 0.19 }), 'V 0.19 % is above 0.18 % (range of EN 1011-2 method B, from memory)'],
];
for (const [name, changes, reason] of refusals) {
  test(`refused, with no number and the reason: ${name}`, () => {
    const answer = answerOf(changes);
    expect(answer.applicable).toBe('no');
    expect(answer.computedCelsius).toBeUndefined();
    expect(answer.preheatMinimumCelsius).toBeUndefined();
    expect(answer.terms).toEqual([]);
    expect(answer.reason).toContain(reason);
    expect(requirement(plainJoint(changes), []).warnings.some((one) => one.kind === 'out of range')).toBe(true);
  });
}

test('the ends of the range are inside', () => {
  for (const changes of [hydrogen(20), hydrogen(1), heat(4), heat(0.5), thick(10), thick(90)]) {
    expect(answerOf(changes).applicable).toBe('yes');
  }
});

test('above 90 mm it is computed and flagged; with another bound left it is refused all the same', () => {
  const answer = answerOf(thick(90.5));
  expect(answer.applicable).toBe('extended');
  expect(answer.computedCelsius).toBeGreaterThan(140);
  expect(answer.reason).toBe('plate thickness 90.5 mm is above the range 10 to 90 mm');
  expect(answerOf({ ...thick(120), ...hydrogen(25) }).applicable).toBe('no');
});

test('what is not stated is asked for, all of it at once', () => {
  const answer = answerOf({
    ...analysed({ Mn: 'not reported' }),
    consumable: { hydrogen: 'not stated' },
    heatInput: 'not stated',
  });
  expect(answer.applicable).toBe('no');
  expect(answer.missing).toHaveLength(3);
  expect(answer.missing[0]).toBe('Mn in the analysis of plate');
  expect(answer.missing[1]).toContain('diffusible hydrogen');
  expect(answer.missing[2]).toContain('heat input');
});

test('a hydrogen class counts as its upper bound', () => {
  for (const [name, value] of [
    ['H2', 2],
    ['H5', 5],
    ['H10', 10],
    ['H16', 16],
  ] as const) {
    const input = answerOf({
      consumable: { hydrogen: { class: name } },
    }).inputs.find((one) => one.name === 'HD')!;
    expect(input).toMatchObject({
      value,
      from: `upper bound of class ${name}`,
    });
  }
});

test('the parent metal governs from 0.03 above the weld metal, else the weld metal plus 0.03', () => {
  const weldMetal = (C: number): Partial<Joint> => ({
    consumable: {
      hydrogen: { millilitresPer100Grams: 5 },
      weldMetal: withPercent({ C }),
    },
  });
  // Parent CET 0.32725 with C 0.17; the same analysis with C 0.14 lies exactly 0.03 below.
  expect(cetOf(answerOf(weldMetal(0.14))).value).toBeCloseTo(0.32725, 9);
  expect(cetOf(answerOf(weldMetal(0.14))).from).toContain('parent metal, at least 0.03 above');
  expect(cetOf(answerOf(weldMetal(0.1))).value).toBeCloseTo(0.32725, 9);
  expect(cetOf(answerOf(weldMetal(0.15))).value).toBeCloseTo(0.33725, 9);
  expect(cetOf(answerOf(weldMetal(0.15))).from).toContain('weld metal plus 0.03');
  expect(cetOf(answerOf(weldMetal(0.2))).value).toBeCloseTo(0.38725, 9);
  expect(answerOf(weldMetal(0.14)).flags).toEqual([]);
});

test('without an analysis of the weld metal, or with a gap in it, the parent is used and a missing fact is flagged', () => {
  expect(answerOf({}).flags[0]).toContain('the analysis of the weld metal is not given');
  const gap = { ...plainAnalysis, percent: { C: 0.07 } };
  const answer = answerOf({
    consumable: { hydrogen: { class: 'H5' }, weldMetal: gap },
  });
  expect(answer.flags[0]).toContain('lacks Mn, Mo, Cr, Cu, Ni');
  const { warnings } = requirement(plainJoint(), []);
  expect(warnings).toMatchObject([{ kind: 'missing fact', wantsAnswer: false }]);
});

test('an austenitic weld metal is refused by its CET, not computed', () => {
  const weldMetal = withPercent({ C: 0.05, Mn: 1.8, Cr: 19, Ni: 9 });
  const answer = answerOf({
    consumable: { hydrogen: { class: 'H5' }, weldMetal },
  });
  expect(answer.applicable).toBe('no');
  expect(answer.reason).toContain('CET');
});
