/** What holds for alarms whatever happens: none leaves without a name, none is put aside without an end. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alarmPriority, isRinging, isTold, shelvedAtMost } from '../../server/judgement/alarm-rules.ts';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { effectiveAt } from '../../server/judgement/effect.ts';
import { createJudge } from '../../server/judgement/judge.ts';
import { arrival, type Input } from '../../server/weld/entry.ts';
import { arbitraryJob, type Job } from '../support/arbitrary-job.ts';

fc.configureGlobal({ seed: 20_260_302 });

describe('laws of alarms', () => {
  it('one that rings leaves only after a named person took note of it or put it aside', () => {
    fc.assert(
      fc.property(arbitraryJob, (job) => {
        walk(job, (before, input, now) => {
          const acted =
            input.type === 'act' && (input.act.kind === 'acknowledge' || input.act.kind === 'shelve')
              ? input.act.alarm
              : undefined;
          for (const alarm of before.alarms.filter((each) => isRinging(each) && each.key !== acted))
            expect(now.alarms.map(({ key }) => key)).toContain(alarm.key);
        });
      }),
      { numRuns: 40 },
    );
  });

  it('what is put aside has an end, no later than its priority allows', () => {
    fc.assert(
      fc.property(arbitraryJob, (job) => {
        walk(job, (_before, _input, { shelvings, at }) => {
          for (const { at: from, until, kind } of shelvings) {
            expect(until - from).toBeLessThanOrEqual(shelvedAtMost[alarmPriority({ kind })]);
            expect(until).toBeGreaterThan(at);
          }
        });
      }),
      { numRuns: 40 },
    );
  });

  it('one that a rule holds back or that is put aside does not ring; one that rings was announced', () => {
    fc.assert(
      fc.property(arbitraryJob, (job) => {
        walk(job, (_before, _input, { alarms }) => {
          for (const alarm of alarms) {
            if (!isTold(alarm)) expect(isRinging(alarm)).toBe(false);
            if (isRinging(alarm)) expect(alarm.announcedAt).toBeDefined();
          }
        });
      }),
      { numRuns: 40 },
    );
  });
});

/** What comes late is judged in its place and may take back what was said, so that only what comes in time is walked. */
function walk(job: Job, look: (before: Assessment, input: Input, now: Assessment) => void): void {
  const [opening, ...inputs] = job.inputs;
  if (opening?.type !== 'station' || opening.event.kind !== 'opened') throw new Error('a job begins with its opening');
  const judge = createJudge(opening.at, opening.event);
  let before = judge.assess();
  for (const input of inputs.filter((each) => effectiveAt(each) === arrival(each))) {
    judge.take(input);
    const now = judge.assess();
    look(before, input, now);
    before = now;
  }
}
