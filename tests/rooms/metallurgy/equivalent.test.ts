/** Analyses as people have them: gaps, bounds, several papers of one metal, several heats. */
import { expect, test } from 'vitest';
import { equivalent } from '../../../server/metallurgy/equivalent.ts';
import { ce } from '../../../server/metallurgy/equivalents/ce.ts';
import { cet } from '../../../server/metallurgy/equivalents/cet.ts';
import { equivalentDefinitions } from '../../../server/metallurgy/equivalents/list.ts';
import { pcm } from '../../../server/metallurgy/equivalents/pcm.ts';
import type { Analysis } from '../../../server/weld/composition.ts';
import { plainAnalysis, withPercent } from '../../support/plain-joint.ts';

test('an element left out and one that is "not reported" are both asked for, never taken as zero', () => {
  const { B: _boron, ...without } = plainAnalysis.percent;
  for (const analysis of [{ ...plainAnalysis, percent: without }, withPercent({ B: 'not reported' })]) {
    const answer = equivalent(pcm, 'plate', [analysis]);
    expect(answer.value).toBeUndefined();
    expect(answer.missing).toEqual(['B']);
  }
  expect(equivalent(pcm, 'plate', [withPercent({ B: 0 })]).missing).toEqual([]);
});

test('no analysis at all: every element is asked for', () => {
  for (const definition of equivalentDefinitions) {
    const answer = equivalent(definition, 'plate', []);
    expect(answer.value).toBeUndefined();
    expect(answer.missing).toEqual(definition.needs);
  }
});

test('a stated bound counts as its upper end and is shown as what it is', () => {
  const bounded = equivalent(pcm, 'plate', [withPercent({ B: { atMost: 0.002 } })]);
  const plain = equivalent(pcm, 'plate', [withPercent({ B: 0 })]);
  expect(bounded.value! - plain.value!).toBeCloseTo(0.01, 9);
  expect(bounded.inputs.find((input) => input.name === 'B')!.from).toContain('stated bound, at most 0.002 %');
});

test('of ladle and product analysis, and of several heats, the highest governs, and its paper is named', () => {
  const ladle = plainAnalysis;
  const product: Analysis = {
    ...withPercent({ C: 0.19 }),
    origin: 'product analysis',
    certificate: 'P-1',
  };
  for (const analyses of [
    [ladle, product],
    [product, ladle],
  ]) {
    const answer = equivalent(cet, 'plate', analyses);
    expect(answer.value).toBeCloseTo(0.34725, 5);
    expect(answer.inputs.every((input) => input.from === 'product analysis P-1')).toBe(true);
  }
});

test('a handheld X-ray reading of the same metal takes its carbon from the certificate, and says so', () => {
  const xray: Analysis = {
    origin: 'handheld X-ray',
    percent: {
      C: 'not reported',
      Mn: 1.6,
      Cr: 0.05,
      Mo: 0.01,
      Ni: 0.05,
      Cu: 0.15,
    },
  };
  const answer = equivalent(cet, 'plate', [plainAnalysis, xray]);
  expect(answer.value).toBeCloseTo(0.34225, 5);
  expect(answer.inputs.find((input) => input.name === 'C')!.from).toContain('heat certificate C-1');
});

test('a gap is not closed from another heat: the highest of the two is then not known', () => {
  const one: Analysis = { ...plainAnalysis, heat: 'H-1' };
  const other: Analysis = {
    ...withPercent({ Mo: 'not reported' }),
    heat: 'H-2',
  };
  const answer = equivalent(ce, 'plate', [one, other]);
  expect(answer.value).toBeUndefined();
  expect(answer.missing).toEqual(['Mo']);
});

test('contents outside the range are named, whichever analysis they stand in; the ends are inside', () => {
  expect(equivalent(cet, 'plate', [withPercent({ Cr: 1.5, C: 0.05, Mn: 1.9 })]).outOfRange).toEqual([]);
  const answer = equivalent(cet, 'plate', [plainAnalysis, { ...withPercent({ Cr: 1.51 }), certificate: 'C-2' }]);
  expect(answer.outOfRange).toEqual(['Cr 1.51 % in heat certificate C-2 is above 1.5 %']);
  expect(equivalent(cet, 'plate', [withPercent({ Mn: 0.49 })]).outOfRange).toEqual(['Mn 0.49 % is below 0.5 %']);
});

test('elements that only the range names are reported as unchecked where no paper gives them', () => {
  expect(equivalent(cet, 'plate', [plainAnalysis]).unchecked).toEqual([]);
  expect(equivalent(cet, 'plate', [withPercent({ Ti: 'not reported' })]).unchecked).toEqual(['Ti']);
});
