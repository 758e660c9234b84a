/** The judge that is run for a "what if" is the judge: over a record as it is it says the same, late entries and corrections included. */
import { expect, test } from 'vitest';
import { judgeAll } from '../../../server/judgement/judge.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { sameOf } from '../../../server/supposing/answer.ts';
import { ordered, run } from '../../../server/supposing/run.ts';
import { arrival } from '../../../server/weld/entry.ts';
import { recordedScenario } from '../../support/recorded-scenario.ts';

test.each(['whole-job', 'corrected-struck', 'started-minutes-ago', 'heat-off-told-45-min-late'])('%s', (name) => {
  const { inputs } = recordedScenario(name, 'seam');
  const judged = judgeAll(inputs).assessment;
  const { assessment } = run(ordered(inputs)!);
  expect(assessment.verdict).toBe(judged.verdict);
  expect(assessment.findings.map(sameOf).sort()).toEqual(judged.findings.map(sameOf).sort());
  expect(assessment.passes.map(({ startedAt, minimum, maximum }) => [startedAt, minimum, maximum])).toEqual(
    judged.passes.map(({ startedAt, minimum, maximum }) => [startedAt, minimum, maximum]),
  );
});

test.each(['whole-job', 'heat-off-told-45-min-late'])('%s as it stood half way: by what had come by then', (name) => {
  const { inputs } = recordedScenario(name, 'seam');
  const times = inputs.map(arrival);
  const at = Math.round((Math.min(...times) + Math.max(...times)) / 2) as Instant;
  const then = judgeAll(
    inputs.filter((input) => arrival(input) <= at),
    at,
  ).assessment;
  const record = ordered(inputs, at)!;
  const { assessment, state } = run(record);
  expect(assessment.at).toBe(at);
  expect(assessment.findings.map(sameOf).sort()).toEqual(then.findings.map(sameOf).sort());
  expect([assessment.verdict, assessment.phase]).toEqual([then.verdict, then.phase]);
  expect([record.past, state.closedAt]).toEqual([true, undefined]);
});
