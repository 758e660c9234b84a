/** What the desk says of entries on passes that cannot be. What lies outside its limits is recorded and judged. */
import { expect, test } from 'vitest';
import { passProblems } from '../../../server/desk/pass-acts.ts';
import { correctionProblems } from '../../../server/desk/pass-correction.ts';
import { instant } from '../../../server/measure/quantity.ts';
import type { PassCorrectionAct } from '../../../server/weld/pass-acts.ts';
import { assessment } from '../wording/sample-assessment.ts';

const at = instant(Date.UTC(2026, 2, 2, 12));
const pass = {
  pass: '1',
  passKind: 'fill',
  welder: 'Bo',
  details: { volts: 24 },
  heat: { state: 'not asked', counted: 'heat input' },
  startedAt: at,
  enteredAt: at,
  endedAt: instant(at + 60_000),
  minimum: 'met',
  maximum: 'met',
  outside: [],
} as const;
const now = assessment({ passes: [pass, { ...pass, pass: '2' }] });

test('details fill what is open, and what stands is not written over', () => {
  expect(passProblems({ kind: 'pass details', pass: '1', volts: 24, amperes: 160 }, now)).toEqual([]);
  expect(passProblems({ kind: 'pass details', pass: '1', volts: 26 }, now)).toEqual([
    { field: 'act.volts', found: '26', allowed: 'nothing: 24 stands already; correct the pass, with the reason' },
  ]);
  expect(passProblems({ kind: 'pass details', pass: '7', volts: 26 }, now)[0]!.allowed).toBe('one of 1, 2');
});

const later = instant(at + 600_000);
const wrong = (right: Partial<PassCorrectionAct>): string | undefined =>
  correctionProblems({ kind: 'correct pass', pass: '1', reason: 'a slip', ...right }, now, later)[0]?.field;

test.each<[string, Partial<PassCorrectionAct>, string | undefined]>([
  ['an earlier start', { startedAt: at - 60_000 }, undefined],
  ['a pass struck', { struck: true }, undefined],
  ['a pass that is none', { pass: '9', struck: true }, 'act.pass'],
  ['the name of another', { name: '2' }, 'act.name'],
  ['a start behind the end', { startedAt: at + 90_000 }, 'act.startedAt'],
  ['an end before the start', { endedAt: at - 1 }, 'act.endedAt'],
  ['an end in the future', { endedAt: at + 3_600_000 }, 'act.endedAt'],
  ['what is so already', { welder: 'Bo', volts: 24 }, 'act.kind'],
])('%s', (_title, right, field) => {
  expect(wrong(right)).toBe(field);
});
