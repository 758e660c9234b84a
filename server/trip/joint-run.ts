/**
 * One open joint on its trip: takes inputs into its judge, and tells what is to be committed for them. What
 * it has judged is shown only once that is committed (pipeline.ts).
 */

import type { Assessment } from '../judgement/assessment.ts';
import { conclusions } from '../judgement/conclusions.ts';
import type { Outlook } from '../judgement/inside/section-status.ts';
import { createJudge, firstOf, type Judge, type JudgeMemory, judgeAll } from '../judgement/judge.ts';
import { type Item, itemOf, stationName } from '../ledger/item.ts';
import { type Instant, seconds } from '../measure/quantity.ts';
import { againstDuty } from '../weld/duties.ts';
import type { Input, Source, StationEvent } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';

export interface JointRun {
  readonly id: string;
  joint: Joint;
  judge: Judge;
  /** How it was opened, for a judge that goes on from elsewhere. */
  readonly opened: { readonly at: Instant; readonly event: Opened };
  /** Source as the record states it, unless a person has declared another. */
  source: Source;
  declared: boolean;
  periods: Map<string, number>;
  /** By board, as the record says it. */
  ports: Map<string, string>;
  /** Newest judgement, and the one up to which conclusions have been written. */
  assessment: Assessment;
  concluded: Assessment | undefined;
  /** What lies ahead, as it was last made. */
  outlook: Outlook | undefined;
  touched: boolean;
  /** What it has taken in since the last commit. */
  fed: Input[];
  /** All that was committed before. */
  committed: () => Iterable<Input>;
  /** Inputs of its chain taken in so far. */
  taken: number;
  /** An input that has to be folded in beside the trip: until that is done the old judgement goes on. */
  anew: Anew | undefined;
  /** Its closing has been taken in: nothing more is fed. */
  closed: boolean;
  /** Newest position of this joint in the record. */
  position: number;
}

export interface Anew {
  /** Inputs up to and with the one that reaches back. */
  readonly inputs: number;
  /** What came after it, to be taken in by the new judge. */
  readonly after: Input[];
  /** Somebody is folding. */
  asked: boolean;
}

export type Opened = StationEvent & { kind: 'opened' };

/** `committed` gives the inputs of its chain in the record: what reaches far back is judged from there anew. */
export function startRun(at: Instant, opened: Opened, committed: () => Iterable<Input>): JointRun {
  const judge = createJudge(at, opened, () => chained(run));
  const run: JointRun = {
    id: opened.joint.id,
    joint: opened.joint,
    judge,
    opened: { at, event: opened },
    taken: 1,
    anew: undefined,
    fed: [{ type: 'station', at, event: opened }],
    committed,
    source: opened.source,
    declared: false,
    periods: new Map(),
    ports: new Map(),
    assessment: judge.assess(),
    concluded: undefined,
    outlook: undefined,
    touched: true,
    closed: false,
    position: 0,
  };
  return run;
}

function* chained({ committed, fed }: JointRun): Iterable<Input> {
  yield* committed();
  yield* fed;
}

/**
 * Takes the input in and hands back the item to commit. `beside`: what reaches back beyond what the judge keeps is only
 * noted, to be folded in beside the trip (foldedAnew).
 */
export function feed(run: JointRun, input: Input, beside = false): Item {
  run.taken += 1;
  const isAnew = beside && run.judge.foldsAnew(input);
  if (isAnew) run.anew = { inputs: run.taken, after: [], asked: false };
  else {
    run.anew?.after.push(input);
    run.judge.take(input);
  }
  run.fed.push(input);
  run.touched = true;
  if (input.type === 'act' && input.act.kind === 'revise') run.joint = input.act.joint;
  if (
    input.type === 'act' &&
    input.act.kind === 'declare source' &&
    againstDuty('declare source', input.role) === undefined
  )
    run.declared = true;
  if (input.type === 'act' && input.act.kind === 'close') run.closed = true;
  if (input.type === 'station' && input.event.kind === 'source') run.source = input.event.source;
  if (input.type === 'station' && input.event.kind === 'period') {
    run.periods.set(input.event.board, input.event.periodMilliseconds);
  }
  if (input.type === 'station' && input.event.kind === 'board') run.ports.set(input.event.board, input.event.port);
  return itemOf(run.id, input);
}

/** Goes on from what was folded beside the trip, with all that came meanwhile. */
export function foldedAnew(run: JointRun, memory: JudgeMemory, at: Instant): void {
  const { anew, opened } = run;
  if (anew === undefined) return;
  run.anew = undefined;
  run.judge = createJudge(opened.at, opened.event, () => chained(run), memory);
  for (const input of anew.after) run.judge.take(input);
  run.judge.advance(at);
  run.touched = true;
}

/** The same on the trip itself, where it could not be done beside it. */
export function foldHere(run: JointRun, at: Instant): void {
  if (run.anew === undefined) return;
  const { inputs } = run.anew;
  foldedAnew(
    run,
    judgeAll({ [Symbol.iterator]: () => firstOf(chained(run), inputs)[Symbol.iterator]() }).judge.memory(),
    at,
  );
}

/** Judges anew and hands back what is concluded since the last time, to be committed with its inputs. */
export function conclude(run: JointRun, at: Instant): Item[] {
  run.assessment = run.judge.assess();
  run.touched = false;
  const list = conclusions(run.concluded, run.assessment);
  run.concluded = run.assessment;
  return list.map((each) => ({
    type: 'entry',
    chain: run.id,
    at,
    who: stationName,
    class: 'conclusion',
    kind: each.kind,
    body: each,
  }));
}

/**
 * What lies ahead of the run, made anew when it is some seconds old: it costs some milliseconds a part, so that it is
 * made only for whoever looks. Undefined once the joint is closed.
 */
export function foresee(run: JointRun | undefined): Outlook | undefined {
  if (run === undefined || run.closed) return undefined;
  const { at } = run.assessment;
  if (run.outlook === undefined || at - run.outlook.at >= outlookEvery) run.outlook = run.judge.outlook();
  return run.outlook;
}

const outlookEvery = seconds(5);

/** Takes a run up again from its chain after a restart: the same fold over the same inputs, which `chain` gives again. */
export function resumeRun(inputs: Iterable<Input>, chain: () => Iterable<Input>): JointRun | undefined {
  let run: JointRun | undefined;
  let taken = 0;
  for (const input of inputs) {
    if (run === undefined) {
      if (input.type !== 'station' || input.event.kind !== 'opened') return undefined;
      run = startRun(input.at, input.event, () => firstOf(chain(), taken));
    } else feed(run, input);
    taken += 1;
    run.fed = [];
  }
  if (run !== undefined) {
    run.committed = chain;
    run.assessment = run.judge.assess();
    // What it concludes from here is new; what stands in its chain is not written again.
    run.concluded = run.assessment;
  }
  return run;
}
