/** The report says which revision the joint goes by and by which hash, how it was changed over, and where it stands against the test piece. */
import { expect, test } from 'vitest';
import { revisionHash } from '../../../server/ledger/procedures.ts';
import { modelText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { asBound, type ProcedureRevision, reboundTo } from '../../../server/weld/procedure-revision.ts';
import { reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

const revision = (name: string, minimum: number): ProcedureRevision => ({
  format: 'preheat procedure 1',
  procedure: {
    id: 'P-12',
    revision: name,
    preheatMinimumCelsius: minimum,
    interpassMaximumCelsius: 250,
    decisionRule: 'simple acceptance',
    qualification: {
      record: 'Q-7',
      standard: 'ASME IX',
      preheatCelsius: 200,
      interpassCelsius: 210,
      impactTests: 'required',
    },
  },
  postHeating: { celsius: 250, hours: 2 },
});
const [first, second] = [revision('A', 140), revision('B', 150)];
const bound: Joint = { ...fixtureJoint(), ...asBound(first, revisionHash(first)) };
const changed = reboundTo(bound, second, revisionHash(second));
const text = (facts: Parameters<typeof reportFacts>[0]): string => modelText(pages(reportFacts(facts)));

test('a bound joint: revision, hash worked out again, values, and where each stands', () => {
  const report = text({ joint: bound });
  expect(report).toContain('P-12, revision A');
  expect(report).toContain(revisionHash(first));
  expect(report).toContain('the values that this joint carries have that hash, worked out again for this report');
  expect(report).toMatch(/Post-heating at.*250 °C/);
  expect(report).toContain('Qualified range: record Q-7, ASME IX');
  expect(report).toContain('OUTSIDE: 140 °C, qualified from 145 °C (test piece 200 °C)');
  expect(report).toContain('Inside: 250 °C, qualified up to 265 °C (test piece 210 °C)');
  expect(report).toContain('ASME IX QW-406.1, second-hand');
  expect(report).not.toContain('Changed over');
});

test('changed over: when, by whom, what changed value by value, and why', () => {
  const act = { kind: 'revise', joint: changed, reason: 'revision B holds from today' } as const;
  const facts = reportFacts({ joint: bound, extraActs: [[30, 'Ada', act]] });
  const report = modelText(pages({ ...facts, joint: changed }));
  expect(report).toContain('Changed over');
  expect(report).toContain('Minimum preheat: 140 °C → 150 °C');
  expect(report).toContain('revision B holds from today');
  expect(report).toContain(revisionHash(second));
});

test('values that are not those of the hash are told; values by hand are told to be so; no procedure has no section', () => {
  const altered = { ...bound, procedure: { ...bound.procedure!, preheatMinimumCelsius: 145 } };
  expect(text({ joint: altered })).toContain(
    'DOES NOT HOLD: the values of its procedure are not those of the revision',
  );
  const { boundRevision: _, ...byHand } = bound;
  expect(text({ joint: byHand })).toContain('none: its values were entered by hand');
  const { procedure: __, ...without } = byHand;
  expect(text({ joint: without })).not.toContain('What it states');
});
