/**
 * A whole job, cut after each act and every tenth reading: the record is closed, opened again as a new process opens it, and the job taken
 * up from it. Whatever the cut, judge and record end as if nothing had happened.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { itemOf } from '../../server/ledger/item.ts';
import { conclude, feed, type JointRun, resumeRun, startRun } from '../../server/trip/joint-run.ts';
import { arrival, type Input } from '../../server/weld/entry.ts';
import type { Bench } from '../support/record.ts';
import { bench } from '../support/record.ts';
import { readScenario } from '../support/scenario.ts';

const job = readScenario(readFileSync(new URL('../rooms/judgement/scenarios/whole-job.txt', import.meta.url), 'utf8'));
const [opening, ...rest] = job.inputs;

describe('a job that is cut and resumed', () => {
  it('stands as it stood before the cut', { timeout: 120_000 }, () => {
    const bed = bench();
    const run = begun(bed);
    for (const [index, input] of rest.entries()) {
      step(bed, run, input);
      if (input.type === 'scan' && index % 10 !== 0) continue;
      bed.reopen();
      const resumed = resume(bed);
      expect(remembered(resumed), `cut after ${index}`).toBe(remembered(run));
    }
  });

  it('goes on from every fortieth item to the same entries, judgement and verdict', { timeout: 120_000 }, () => {
    const whole = played(rest.length);
    expect(whole.assessment.phase).toBe('closed');
    for (let cut = 30; cut < rest.length; cut += 40) {
      const resumed = played(cut);
      expect(resumed.assessment, `cut after ${cut}`).toEqual(whole.assessment);
      expect(resumed.entries, `cut after ${cut}`).toEqual(whole.entries);
    }
  });
});

/** All that goes on mattering, as text: quicker to compare than as it is. The record orders the names of what it keeps. */
const remembered = ({ judge, assessment, joint, source, closed, taken }: JointRun): string =>
  JSON.stringify({ state: judge.memory().state, assessment, joint, source, closed, taken }, (_, value) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );

/** The job with one cut. */
function played(cut: number): { assessment: JointRun['assessment']; entries: unknown[] } {
  const bed = bench();
  let run = begun(bed);
  for (const [index, input] of rest.entries()) {
    if (index === cut) {
      bed.reopen();
      run = resume(bed);
    }
    step(bed, run, input);
  }
  // Where it is sealed into blocks, and so every number and hash, hangs on when it was closed; what it says does not.
  const entries = [...bed.store.after(0, { limit: 5000, chain: job.joint.id })].map((item) =>
    item.type === 'scan' ? item.scan : [item.at, item.class, item.body],
  );
  bed.store.close();
  return { assessment: run.assessment, entries };
}

function begun(bed: Bench): JointRun {
  if (opening?.type !== 'station' || opening.event.kind !== 'opened') throw new Error('no opening');
  const run = startRun(opening.at, opening.event, () => bed.store.inputs(job.joint.id));
  commit(bed, run, opening, itemOf(run.id, opening));
  return run;
}

const step = (bed: Bench, run: JointRun, input: Input): void => commit(bed, run, input, feed(run, input));

function commit(bed: Bench, run: JointRun, input: Input, item: ReturnType<typeof feed>): void {
  bed.now = arrival(input);
  bed.store.commit([item, ...conclude(run, arrival(input))]);
  run.fed = [];
}

function resume(bed: Bench): JointRun {
  const inputs = () => bed.store.inputs(job.joint.id);
  const run = resumeRun(inputs(), inputs);
  if (run === undefined) throw new Error('nothing to resume');
  return run;
}
