/** The judge that is run for a "what if" is the judge: over a record as it is it says the same, late entries and corrections included. */
import { expect, test } from 'vitest';
import { judgeAll } from '../../../server/judgement/judge.ts';
import { sameOf } from '../../../server/supposing/answer.ts';
import { ordered, run } from '../../../server/supposing/run.ts';
import { recordedScenario } from '../../support/recorded-scenario.ts';

test.each(['whole-job', 'corrected-struck', 'started-minutes-ago', 'heat-off-told-45-min-late'])('%s', (name) => {
  const { inputs } = recordedScenario(name, 'seam');
  const judged = judgeAll(inputs).assessment;
  const { assessment } = run(ordered(inputs));
  expect(assessment.verdict).toBe(judged.verdict);
  expect(assessment.findings.map(sameOf).sort()).toEqual(judged.findings.map(sameOf).sort());
  expect(assessment.passes.map(({ startedAt, minimum, maximum }) => [startedAt, minimum, maximum])).toEqual(
    judged.passes.map(({ startedAt, minimum, maximum }) => [startedAt, minimum, maximum]),
  );
});
