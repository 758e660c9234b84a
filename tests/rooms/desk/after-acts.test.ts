/** What the desk says of steps after the last arc that cannot be yet. Too early or too warm is recorded and judged. */
import { expect, test } from 'vitest';
import { afterProblems } from '../../../server/desk/after-acts.ts';
import type { AfterStatus } from '../../../server/judgement/after/after-status.ts';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { instant, milliCelsius, milliseconds } from '../../../server/measure/quantity.ts';
import type { AfterAct } from '../../../server/weld/entry.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { plainJoint } from '../../support/plain-joint.ts';
import { assessment } from '../wording/sample-assessment.ts';

const plain = plainJoint({
  probes: [{ id: 'T1', board: 'b-1', channel: 1, thermocouple: 'K', use: 'spare', attachedBy: 'welded lug' }],
});
const heated = { ...plain, postHeating: { celsius: 250, hours: 2 } };
const at = instant(Date.UTC(2026, 2, 2, 12));
const pass = {
  pass: '1',
  passKind: 'fill',
  welder: 'Bo',
  startedAt: at,
  enteredAt: at,
  details: {},
  heat: { state: 'not asked', counted: 'heat input' },
  minimum: 'met',
  maximum: 'met',
  outside: [],
} as const;
const postHeating = {
  state: 'not begun',
  minimum: milliCelsius(250),
  counted: 'continuous',
  required: milliseconds(7_200_000),
  held: milliseconds(0),
} as const;
const after: AfterStatus = { completedAt: at, postHeating, wait: { state: 'not known' }, spots: [] };

const allowed = (act: AfterAct, now: Partial<Assessment>, joint: Joint = heated): readonly string[] =>
  afterProblems(act, assessment(now), joint).map((each) => each.allowed);

test('welding is complete once, after a pass, and with no pass running', () => {
  const act = { kind: 'welding complete' } as const;
  expect(allowed(act, { passes: [{ ...pass, endedAt: at }] })).toEqual([]);
  expect(allowed(act, { passes: [] })[0]).toContain('none is entered yet');
  expect(allowed(act, { passes: [pass] })[0]).toContain('running: 1');
  expect(allowed(act, { passes: [{ ...pass, endedAt: at }], after })[0]).toContain('not entered already');
});

test('post-heating begins after welding, where it is asked for, and ends after it began', () => {
  const begun = { kind: 'post-heating', state: 'begun' } as const;
  const ended = { kind: 'post-heating', state: 'ended' } as const;
  const running = { ...after, postHeating: { ...postHeating, begunAt: at } };
  expect(allowed(begun, { after })).toEqual([]);
  expect(allowed(begun, {})[0]).toContain('welding to be complete first');
  expect(allowed(begun, { after }, plain)[0]).toContain('asks for post-heating');
  expect(allowed(ended, { after })[0]).toContain('the beginning first');
  expect(allowed(ended, { after: running })).toEqual([]);
  expect(allowed(begun, { after: running })[0]).toContain('the end of the one that runs');
});

test('heat treatment and testing come after welding; a cover at any time', () => {
  const test = { kind: 'testing begun', method: 'UT' } as const;
  expect(allowed(test, { after })).toEqual([]);
  expect(allowed(test, {})).toHaveLength(1);
  expect(allowed({ kind: 'heat treatment begun' }, {})).toHaveLength(1);
  expect(allowed({ kind: 'cover', state: 'on' }, {})).toEqual([]);
});
