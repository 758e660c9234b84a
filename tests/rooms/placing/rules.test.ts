/** Advice on places: what the rules say of each probe, and that the judge goes by the same numbers. */
import { expect, test } from 'vitest';
import { rules } from '../../../server/judgement/rules.ts';
import { adviceOn } from '../../../server/placing/check.ts';
import { evenOutSeconds, measuringOf } from '../../../server/placing/rules.ts';
import { suggestionFor } from '../../../server/placing/suggestion.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { adviceText, usualPlacesText } from '../../../server/wording/placing.ts';
import { plainJoint, plainProcedure } from '../../support/plain-joint.ts';

const probe = (id: string, place: Partial<NonNullable<Joint['probes'][number]['place']>>, use = 'zone') => ({
  id,
  board: 'B',
  channel: Number(id.slice(1)),
  thermocouple: 'K' as const,
  use: use as 'zone',
  place: { part: 'plate', side: 'A' as const, face: 'back' as const, distanceMillimetres: 75, ...place },
});
const of = (probes: Joint['probes'], id: string): string[] =>
  adviceOn(plainJoint({ probes })).flatMap((one) => ('probe' in one && one.probe === id ? [one.kind] : []));

test('the judge and the advice go by the same numbers', () => {
  expect(measuringOf(rules.thickMillimetres).kind).toBe('at');
  expect(measuringOf(rules.thickMillimetres + 0.1)).toEqual({
    kind: 'zone',
    distanceMillimetres: rules.zoneDistanceMillimetres,
  });
  expect(evenOutSeconds(80) * 1000).toBe(80 * rules.waitPerMillimetre);
});

test('in a zone one probe has to sit at its edge; another may then measure within it', () => {
  expect(of([probe('P1', { distanceMillimetres: 40 })], 'P1')).toEqual(['too near']);
  expect(of([probe('P1', { distanceMillimetres: 40 }), probe('P2', {})], 'P1')).toEqual(['right']);
});

test('each probe: right, too near, too far, on the heated face', () => {
  const probes = [
    probe('P1', {}),
    probe('P2', { side: 'B', distanceMillimetres: 40 }),
    probe('P3', { distanceMillimetres: 400 }),
    probe('P4', { face: 'front' }),
  ];
  expect(of(probes, 'P1')).toEqual(['right']);
  expect(of(probes, 'P2')).toEqual(['too near']);
  expect(of(probes, 'P3')).toEqual(['too far']);
  expect(of(probes, 'P4')).toEqual(['heated face']);
});

test('a side without a zone probe and a joint without an interpass place are named', () => {
  const kinds = adviceOn(
    plainJoint({ probes: [probe('P1', {})], procedure: { ...plainProcedure, interpassMaximumCelsius: 250 } }),
  ).map(({ kind }) => kind);
  expect(kinds).toContain('missing side');
  expect(kinds).toContain('no interpass place');
});

test('every piece of advice and the suggestion have words, and the suggestion says whose it is', () => {
  const joint = plainJoint({ probes: [probe('P1', { face: 'front' }), probe('P2', { distanceMillimetres: 9 })] });
  for (const each of adviceOn(joint)) expect(adviceText(each, 'metric')).not.toMatch(/undefined|NaN/);
  expect(usualPlacesText(suggestionFor(joint), 'metric')).toContain('Common practice');
});
