/** Combined thickness by the ways of the heat (EN 1011-2 figure C.1, from memory): the sum, its terms, what is flagged. */
import { expect, test } from 'vitest';
import { combinedThickness } from '../../../server/metallurgy/combined-thickness.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { plainJoint, plainPart } from '../../support/plain-joint.ts';

const thin = plainPart({ id: 'thin', side: 'A', thicknessMillimetres: 20 });
const thick = plainPart({ id: 'thick', side: 'B', thicknessMillimetres: 50 });
const of = (jointType: Joint['jointType'], parts: Joint['parts']) =>
  combinedThickness(plainJoint({ jointType, parts }));

test.each([
  ['plate butt', 70],
  ['pipe butt', 70],
  ['corner', 70],
  ['T', 120],
  ['cruciform', 120],
  ['lap', 120],
  ['nozzle or branch', 120],
] as const)('%s of 20 and 50 mm: %s mm, in either order, and the terms sum to it', (jointType, millimetres) => {
  for (const parts of [
    [thin, thick],
    [thick, thin],
  ]) {
    const { millimetres: found, terms } = of(jointType, parts);
    expect(found).toBe(millimetres);
    expect(terms.reduce((sum, { value }) => sum + value, 0)).toBe(millimetres);
  }
});

test('one part that is repaired or built up leads the heat both ways', () => {
  expect(of('casting repair', [plainPart({ thicknessMillimetres: 120 })]).millimetres).toBe(240);
  expect(of('build-up', [plainPart({ thicknessMillimetres: 30 })]).millimetres).toBe(60);
});

test('where one part runs through, that the thickest is taken for it is said', () => {
  expect(of('T', [thin, thick]).flags.join()).toContain('which part runs through is not stated');
  expect(of('plate butt', [thin, thick]).flags.join()).not.toContain('runs through');
});

test('a bar counts by half its diameter, without a diameter by its thickness; a tube by its wall; each is said', () => {
  const bar = plainPart({ id: 'bar', side: 'A', thicknessMillimetres: 60, form: 'bar' });
  const known = of('plate butt', [{ ...bar, outsideDiameterMillimetres: 60 }, thick]);
  expect(known.millimetres).toBe(80);
  expect(known.flags.join()).toContain('half its diameter');
  const unknown = of('plate butt', [bar, thick]);
  expect(unknown.millimetres).toBe(110);
  expect(unknown.flags.join()).toContain('the diameter of a bar is not stated');
  const tube = of('pipe butt', [{ ...thin, form: 'tube', outsideDiameterMillimetres: 300 }, thick]);
  expect(tube.millimetres).toBe(70);
  expect(tube.flags.join()).toContain('a tube is counted by its wall');
});
