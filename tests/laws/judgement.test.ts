/**
 * Laws of the judge over jobs that could have happened. They hold whatever the rules' numbers are: time cut
 * anywhere changes nothing, what comes late is judged as if it had come in time, and to believe a probe less
 * never makes a joint look better.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { effectiveAt } from '../../server/judgement/effect.ts';
import { createJudge, type Judge, judgeAll } from '../../server/judgement/judge.ts';
import { rules } from '../../server/judgement/rules.ts';
import { type Item, itemOf } from '../../server/ledger/item.ts';
import { type Instant, instant } from '../../server/measure/quantity.ts';
import { arrival, type Input } from '../../server/weld/entry.ts';
import type { Quality } from '../../server/weld/scan.ts';
import { arbitraryJob, type Job, periodMilliseconds, probeIds } from '../support/arbitrary-job.ts';
import { bench } from '../support/record.ts';

fc.configureGlobal({ seed: 20_260_302 });

const begin = ({ inputs }: Pick<Job, 'inputs'>): Judge => {
  const first = inputs[0]!;
  if (first.type !== 'station' || first.event.kind !== 'opened') throw new Error('a job begins with its opening');
  return createJudge(first.at, first.event);
};

const judged = (job: Pick<Job, 'inputs' | 'end'>): Assessment => judgeAll(job.inputs, job.end).assessment;

/** As it is told at the end, without when and by which order it became known. */
const final = (assessment: Assessment): unknown => ({
  ...assessment,
  findings: assessment.findings
    .map(({ knownAt: _, ...finding }) => finding)
    .toSorted((a, b) => a.key.localeCompare(b.key)),
  alarms: assessment.alarms.toSorted((a, b) => a.key.localeCompare(b.key)),
});

describe('laws of the judge', { timeout: 120_000 }, () => {
  it('time that passes in many steps is time that passes in one', () => {
    fc.assert(
      fc.property(arbitraryJob, fc.array(fc.integer({ min: 1, max: 4000 }), { minLength: 1 }), (job, cuts) => {
        const judge = begin(job);
        let last = job.inputs[0]!;
        for (const [index, input] of job.inputs.slice(1).entries()) {
          const until = arrival(input);
          let at: number = arrival(last);
          for (let cut = index; at < until; cut += 1) {
            judge.advance(instant(at));
            judge.assess();
            at += cuts[cut % cuts.length]!;
          }
          judge.take(input);
          last = input;
        }
        judge.advance(job.end);
        expect(judge.assess()).toEqual(judged(job));
      }),
      { numRuns: 30 },
    );
  });

  it('what comes late, within the window, is judged as if it had come in time', () => {
    fc.assert(
      fc.property(arbitraryJob, (job) => {
        const [opening, ...rest] = job.inputs;
        // Of the same instant the first to arrive stays first.
        const inTime = [opening!, ...rest.toSorted((a, b) => effectiveAt(a) - effectiveAt(b))];
        expect(final(judged({ inputs: inTime, end: job.end }))).toEqual(final(judged(job)));
      }),
      { numRuns: 50 },
    );
  });

  it('one reading or act that is held back and comes at any later time changes nothing but when it was known', () => {
    fc.assert(
      fc.property(arbitraryJob, fc.nat(), fc.nat(), (job, which, after) => {
        const [opening, ...rest] = job.inputs;
        const index = which % rest.length;
        const held = rest[index]!;
        const others = rest.filter((each) => each !== held);
        const place = index + (after % (others.length - index + 1));
        const at = instant(Math.max(...[opening!, ...others.slice(0, place)].map(arrival), arrival(held)));
        const late = lateBy(held, at);
        // Two of one instant, one held back: which came first is then truly not the same.
        fc.pre(!others.some((each) => effectiveAt(each) === effectiveAt(held)));
        const inputs = [opening!, ...others.slice(0, place), late, ...others.slice(place)];
        const told = withoutEntered(final(judged({ inputs, end: job.end })));
        expect(told).toEqual(withoutEntered(final(judged(job))));
      }),
      { numRuns: 50 },
    );
  });

  it('a stretch of readings that comes later, in order or not, changes nothing but when it was known', () => {
    const delays = fc.array(fc.nat({ max: 30 }), { minLength: 2, maxLength: 40 });
    fc.assert(
      fc.property(arbitraryJob, fc.nat(), delays, fc.boolean(), (job, which, delayed, inOrder) => {
        const [opening, ...rest] = job.inputs;
        const index = which % rest.length;
        const held = rest.slice(index, index + delayed.length).filter(({ type }) => type === 'scan');
        const others = rest.filter((each) => !held.includes(each));
        // Of one instant, and one of them held back: which came first is then truly not the same.
        fc.pre(!others.some((each) => held.some((one) => effectiveAt(each) === effectiveAt(one))));
        const places = held.map((each, one) => {
          const before = others.filter((other) => arrival(other) <= arrival(each)).length;
          return Math.min(others.length, before + (inOrder ? delayed[0]! : delayed[one]!));
        });
        const inputs = [opening!];
        for (let place = 0; place <= others.length; place += 1) {
          for (const [one, each] of held.entries())
            if (places[one] === place) inputs.push(lateBy(each, newestOf([...inputs, each])));
          if (place < others.length) inputs.push(others[place]!);
        }
        const told = withoutEntered(final(judged({ inputs, end: job.end })));
        expect(told).toEqual(withoutEntered(final(judged(job))));
      }),
      { numRuns: 50 },
    );
  });

  it('to distrust a probe from the beginning meets no condition that was not met, and never makes a joint comply', () => {
    fc.assert(
      fc.property(arbitraryJob, fc.constantFrom(...probeIds), (job, probe) => {
        sideBySide(job, openFrom(job, probe, 0), (believed, doubted) => {
          expectNoBetter(believed, doubted);
          if (!hasMaxima(job) && doubted.verdict === 'complies') expect(believed.verdict).toBe('complies');
        });
      }),
      { numRuns: 25 },
    );
  });

  it('to distrust a probe from some time on meets no condition that was not met, once its last reading is stale', () => {
    fc.assert(
      fc.property(arbitraryJob, fc.constantFrom(...probeIds), fc.nat(), (job, probe, which) => {
        const from = which % job.inputs.length;
        const stale = arrival(job.inputs[from]!) + rules.freshPeriods * periodMilliseconds;
        sideBySide(job, openFrom(job, probe, from), (believed, doubted) => {
          if (doubted.at > stale) expectNoBetter(believed, doubted);
        });
      }),
      { numRuns: 25 },
    );
  });

  it('what the record gives back is judged as it was judged live', () => {
    fc.assert(
      fc.property(arbitraryJob, (job) => {
        const { store } = bench();
        const live = begin(job);
        store.commit([itemOfInput(job.inputs[0]!)]);
        for (const input of job.inputs.slice(1)) live.take(input);
        for (let from = 1; from < job.inputs.length; from += 7)
          store.commit(job.inputs.slice(from, from + 7).map(itemOfInput));
        live.advance(job.end);
        expect(judgeAll(store.inputs(job.joint.id), job.end).assessment).toEqual(live.assess());
      }),
      { numRuns: 6 },
    );
  });
});

const newestOf = (inputs: readonly Input[]): Instant => instant(Math.max(...inputs.map(arrival)));

const itemOfInput = (input: Input): Item => itemOf('job', input);

function lateBy(input: Input, at: Instant): Input {
  if (input.type === 'scan') return { type: 'scan', scan: { ...input.scan, late: true, arrivedAt: at } };
  if (input.type === 'act' && 'happenedAt' in input.act) return { ...input, at };
  if (input.type !== 'act') return { ...input, at };
  return ['acknowledge', 'shelve', 'unshelve'].includes(input.act.kind)
    ? input
    : { ...input, at, act: { ...input.act, happenedAt: input.at } as never };
}

/** When a pass was entered is told as it was, so it differs where the entering did. */
const withoutEntered = (assessment: unknown): unknown =>
  JSON.parse(JSON.stringify(assessment, (key, value) => (key === 'enteredAt' ? undefined : value)));

function openAt(probe: string, input: Input): Input {
  if (input.type !== 'scan') return input;
  const values = input.scan.values.map((value) =>
    value.probe === probe && value.quality === 'good' ? { probe, quality: 'open' as Quality, raw: value.raw } : value,
  );
  return { type: 'scan', scan: { ...input.scan, values } };
}

const openFrom = (job: Job, probe: string, from: number): Job => ({
  ...job,
  inputs: job.inputs.map((input, index) => (index >= from ? openAt(probe, input) : input)),
});

/** Judges two jobs of the same times together and compares them after every input. */
function sideBySide(one: Job, other: Job, compare: (one: Assessment, other: Assessment) => void): void {
  const [first, second] = [begin(one), begin(other)];
  for (let index = 1; index < one.inputs.length; index += 1) {
    first.take(one.inputs[index]!);
    second.take(other.inputs[index]!);
    compare(first.assess(), second.assess());
  }
  first.advance(one.end);
  second.advance(one.end);
  compare(first.assess(), second.assess());
}

/**
 * What is asked of the hottest or of the widest is asked of the probes that are trusted, and of no others: it
 * cannot be known how hot it is where nothing is measured. So to distrust the hottest does meet these.
 */
const askedOfTheTrusted: ReadonlySet<string> = new Set(['highest temperature', 'evenness', 'interpass maximum']);
const hasMaxima = ({ joint }: Job): boolean => joint.procedure?.highestCelsius !== undefined;

function expectNoBetter(believed: Assessment, doubted: Assessment): void {
  const unmet = believed.conditions.filter((each) => each.state !== 'met' && !askedOfTheTrusted.has(each.id));
  if (unmet.some((each) => each.reason !== 'no limit stated')) expect(doubted.ready, 'ready').toBe(false);
  for (const condition of doubted.conditions) {
    const before = believed.conditions.find((each) => each.id === condition.id);
    if (askedOfTheTrusted.has(condition.id)) continue;
    if (condition.state === 'met' && before !== undefined) expect(before.state, condition.id).toBe('met');
  }
}
