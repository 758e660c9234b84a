/** What the desk says of a break that cannot be now. A cold one, or one that is entered late, is recorded and judged. */
import { expect, test } from 'vitest';
import { breakProblems } from '../../../server/desk/break-acts.ts';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import type { BreakStatus } from '../../../server/judgement/breaks/break-status.ts';
import { instant, milliseconds } from '../../../server/measure/quantity.ts';
import type { BreakAct } from '../../../server/weld/break.ts';
import { actSchema } from '../../../server/weld/entry.ts';
import { assessment } from '../wording/sample-assessment.ts';

const at = instant(Date.UTC(2026, 2, 2, 12));
const later = instant(Date.UTC(2026, 2, 2, 13));
const pass = {
  pass: '1',
  passKind: 'fill',
  welder: 'Bo',
  details: {},
  heat: { state: 'not asked', counted: 'heat input' },
  startedAt: at,
  enteredAt: at,
  minimum: 'met',
  maximum: 'met',
  outside: [],
} as const;
const passes = [{ ...pass, endedAt: at }];
const timed: BreakStatus = { from: later, by: 'no pass', kept: 'warm', below: milliseconds(0), asks: [] };
const declared: BreakStatus = { ...timed, by: 'declared', who: 'Ada', reason: 'pause' };

const begun = { kind: 'break', state: 'begun', reason: 'pause' } as const;
const ended = { kind: 'break', state: 'ended' } as const;
const inspected = { kind: 'break inspected', method: 'MT', result: 'no indication' } as const;
const allowed = (act: BreakAct, now: Partial<Assessment>): readonly string[] =>
  breakProblems(act, assessment(now)).map((each) => each.allowed);

test('a break begins between two passes, is declared once, and ends after it began', () => {
  expect(allowed(begun, { passes })).toEqual([]);
  expect(allowed(begun, { passes: [] })[0]).toContain('none is entered yet');
  expect(allowed(begun, { passes: [pass] })[0]).toContain('running: 1');
  expect(allowed(begun, { passes, breaks: [timed] })).toEqual([]);
  expect(allowed(begun, { passes, breaks: [declared] })[0]).toContain('the end of the break');
  expect(allowed(ended, { passes })[0]).toContain('the beginning first');
  expect(allowed(ended, { passes, breaks: [timed] })).toEqual([]);
});

test('an inspection belongs to a break since the last pass', () => {
  expect(allowed(inspected, { passes, breaks: [declared] })).toEqual([]);
  expect(allowed(inspected, { passes })[0]).toContain('enter the break first');
  const before = { ...declared, to: later };
  expect(allowed(inspected, { passes, breaks: [before] })).toEqual([]);
  expect(allowed(inspected, { passes, breaks: [{ ...before, answered: true }] })[0]).toContain('since the last pass');
});

test('a break that begins needs its reason, one that ends does not', () => {
  expect(actSchema.safeParse({ kind: 'break', state: 'begun' }).success).toBe(false);
  expect(actSchema.safeParse(begun).success).toBe(true);
  expect(actSchema.safeParse(ended).success).toBe(true);
});
