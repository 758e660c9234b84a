/**
 * The trip: what comes from the wire and from people is read, judged and committed, in that order, by one
 * loop that takes one step at a time; only then is anybody told. Order in the chain is order of arrival.
 *
 *   wire --WireEvent--+            intake: reading (toScan),       record: commit
 *                     +--> queue --> judgement (take, assess) --> (tried until it succeeds) --> told
 *   desk --NamedAct---+
 */
import { NotRecording } from './desk/refusal.ts';
import type { Assessment } from './judgement/assessment.ts';
import type { Outlook } from './judgement/inside/section-status.ts';
import {
  type CommittedEntry,
  type CommittedItem,
  type Item,
  isJointChain,
  itemOf,
  proceduresChain,
  stationChain,
} from './ledger/item.ts';
import type { Clock } from './measure/clock.ts';
import { limits } from './measure/limits.ts';
import { type Instant, type Milliseconds, milliseconds } from './measure/quantity.ts';
import { type ClockStepped, createArrival } from './trip/arrival.ts';
import { type Batch, batchOf, dropOldest, portionsOf, type Queued, takeWaiting, tellRefused } from './trip/batch.ts';
import type { PortIdentity } from './trip/boards.ts';
import { askFolds, type FoldBeside } from './trip/fold-beside.ts';
import { createIntake, type Intake } from './trip/intake.ts';
import { conclude, foresee, type JointRun, resumeRun } from './trip/joint-run.ts';
import { createProcedureBook } from './trip/procedure-book.ts';
import { nothingLearnt, watched } from './trip/watched.ts';
import type { Input, NamedAct, Source, StationEvent } from './weld/entry.ts';
import type { Joint } from './weld/joint.ts';
import type { ProcedureAsked } from './weld/procedure-act.ts';
import type { Signed } from './weld/signed.ts';
import type { HeardBefore } from './wire/board-book.ts';
import type { WireEvent } from './wire/event.ts';

/** What the pipeline needs of the record. */
export interface Store {
  commit(items: readonly Item[]): { readonly items: readonly CommittedItem[] };
  sealDue(now: Instant): void;
  /** Chains of joints that are open: those that go on. */
  chains(): readonly { readonly chain: string; readonly open: boolean; readonly position: number }[];
  inputs(chain: string): Iterable<Input>;
  entries(chain: string): Iterable<CommittedEntry>;
}

/** One committed step of one joint. */
export interface Step {
  readonly joint: string;
  /** Empty where nothing was committed and only time has passed. */
  readonly items: readonly CommittedItem[];
  /** Position in the record up to which this step speaks. */
  readonly position: number;
  readonly assessment: Assessment;
}

export interface Pipeline {
  readonly intake: Pick<Intake, 'boards'>;
  wire(event: WireEvent): void;
  portIdentified(port: string, identity: PortIdentity): void;
  /** What the record of the open joints said of each board when this was started, for asking again for what is missing. */
  heardBefore(): ReadonlyMap<string, readonly HeardBefore[]>;
  /** Time on the line that joints are judged on: what a screen compares readings with. */
  now(): Instant;
  /** All resolve with the position once it is recorded; reject with NotRecording while nothing can be, or Refusal. */
  open(joint: Joint, who: string | Signed): Promise<number>;
  act(joint: string, named: NamedAct): Promise<number>;
  procedure(asked: ProcedureAsked, signed: Signed): Promise<number>;
  runs(): readonly JointRun[];
  run(joint: string): JointRun | undefined;
  /** What lies ahead of an open joint; some seconds old at most. */
  outlook(joint: string): Outlook | undefined;
  /** Why nothing is being recorded; undefined while all is well. */
  notRecordingBecause(): string | undefined;
  /** The last step of the wall clock since this was started. */
  clockStep(): ClockStepped | undefined;
  onStep(listener: (step: Step) => void): void;
  onRecordingChange(listener: () => void): void;
  /** Commits what waits and stops the clock's wake-ups. */
  close(): void;
}

export interface PipelineOptions {
  readonly store: Store;
  readonly clock: Clock;
  /** Program and rules version, written into each opening entry. */
  readonly rules: string;
  readonly station: string;
  /** Without it what reaches far back is folded on the trip, which stands still for that time. */
  readonly foldBeside?: FoldBeside;
  /** Where all that comes was captured before and is played again. */
  readonly played?: Source;
}

const tickEvery = milliseconds(1000);

export function createPipeline(options: PipelineOptions): Pipeline {
  const { store, clock, foldBeside } = options;
  const procedures = createProcedureBook(store.entries(proceduresChain));
  const intake = createIntake(options, (chain) => store.inputs(chain), procedures);
  const time = createArrival(clock);
  const learnt = nothingLearnt();
  const stepListeners: ((step: Step) => void)[] = [];
  const recordingListeners: (() => void)[] = [];
  let queue: Queued[] = [];
  let dropped = 0;
  let cancelStep: (() => void) | undefined;
  let cancelTick: (() => void) | undefined;
  /** What the record refused, and what stands behind it: tried again before anything else is taken, so that order stays. */
  let unsent: readonly Batch[] = [];
  let commitRefused: string | undefined;
  let sealRefused: string | undefined;
  let refusedBecause: string | undefined;
  let clockStep: ClockStepped | undefined;

  const enqueue = (each: Queued): void => {
    if (queue.length >= limits.queueMaximum && dropOldest(queue) === 'reading') dropped += 1;
    queue.push(each);
    cancelStep ??= clock.after(limits.commitGroupMilliseconds as Milliseconds, step);
  };

  /** What was folded beside the trip comes in like any input, unless the station has ended meanwhile. */
  const takeTurn = (fold: (at: Instant) => void): void => {
    const at = time.now();
    const make = (): Item[] => {
      fold(at);
      return [];
    };
    if (cancelTick !== undefined) enqueue({ at, make, reading: false });
  };

  /** Everything that waits, in its order, in one commit, then the telling; in several where it is very much. */
  const step = (): void => {
    cancelStep?.();
    cancelStep = undefined;
    while (unsent.length === 0 && queue.length > 0) send(concluded(nextBatch()));
  };

  const nextBatch = (): Batch => {
    const batch = batchOf([]);
    // Stamped as what follows it in the chain, so that order of arrival holds.
    if (dropped > 0)
      batch.items.push(...intake.ofStation({ kind: 'station', state: 'not recording', lost: dropped }, queue[0]!.at));
    dropped = 0;
    queue = takeWaiting(batch, queue);
    return batch;
  };

  const concluded = (batch: Batch): Batch => {
    for (const run of intake.runs.values()) if (run.touched) batch.items.push(...conclude(run, time.now()));
    return batch;
  };

  const send = (batch: Batch): void => sendAll(portionsOf(batch, limits.commitItemsMaximum));

  /** Up to the first that is refused. */
  const sendAll = (portions: readonly Batch[]): void => {
    const refused = portions.findIndex((portion) => !sendOne(portion));
    unsent = refused < 0 ? [] : portions.slice(refused);
  };

  /** False where the record refused it. */
  const sendOne = (batch: Batch): boolean => {
    let committed: readonly CommittedItem[];
    try {
      committed = store.commit(batch.items).items;
    } catch (cause) {
      commitRefused = reasonOf(cause);
      tellRefused(batch, commitRefused);
      tellRecording();
      return false;
    }
    commitRefused = undefined;
    for (const run of intake.runs.values()) run.fed = [];
    tellRecording();
    for (const { asked, index } of batch.asked) asked.done(committed[index]!.position);
    tell(committed);
    if (foldBeside !== undefined) askFolds(intake.openRuns(), foldBeside, takeTurn);
    return true;
  };

  const tellRecording = (): void => {
    const because = commitRefused ?? sealRefused;
    if (because === refusedBecause) return;
    refusedBecause = because;
    for (const listener of recordingListeners) listener();
  };

  const tell = (committed: readonly CommittedItem[]): void => {
    for (const run of intake.runs.values()) {
      const items = committed.filter((item) => item.chain === run.id);
      run.position = items.at(-1)?.position ?? run.position;
      if (items.length === 0) continue;
      tellStep(run, items);
    }
  };

  const tellStep = (run: JointRun, items: readonly CommittedItem[]): void => {
    const { id: joint, position, assessment } = run;
    for (const listener of stepListeners) listener({ joint, items, position, assessment });
  };

  /** Each second: a refused batch is tried again, time passes for every open joint, journals are sealed. */
  const tick = (): void => {
    cancelTick = clock.after(tickEvery, tick);
    time.beat();
    sendAll(unsent);
    step();
    if (unsent.length > 0) return;
    noticeClockStep();
    if (unsent.length > 0) return;
    const now = time.now();
    for (const run of intake.openRuns()) {
      run.judge.advance(now);
      run.touched = true;
    }
    send(concluded(batchOf([])));
    if (unsent.length === 0) for (const run of intake.openRuns()) tellStep(run, []);
    sealRefused = undefined;
    try {
      store.sealDue(now);
    } catch (cause) {
      sealRefused = reasonOf(cause);
    }
    tellRecording();
  };

  /** A jump of the wall clock is an entry, since times on both sides of it do not compare; so is a time of standing still. */
  const noticeClockStep = (): void => {
    const stepped = time.step();
    if (stepped === undefined) return;
    if (stepped.jumped) intake.forgetBoardClocks();
    const { steppedMilliseconds, events } = stepped;
    if (steppedMilliseconds !== 0) clockStep = { at: time.now(), steppedMilliseconds };
    send(concluded(batchOf(events.flatMap((event) => intake.ofStation(event, time.now())))));
  };

  const ask = (make: (at: Instant) => Item[]): Promise<number> =>
    new Promise((done, failed) => {
      if (refusedBecause !== undefined) return failed(new NotRecording(refusedBecause));
      const at = time.now();
      enqueue({ at, make: () => make(at), reading: false, asked: { done, failed } });
    });

  const resumeOpenJoints = (): void => {
    const started: StationEvent = { kind: 'station', state: 'started' };
    for (const { chain, open, position } of store.chains()) {
      if (!isJointChain(chain) || !open) continue;
      const run = resumeRun(watched(store.inputs(chain), learnt, time.notBefore), () => store.inputs(chain));
      if (run === undefined) continue;
      run.position = position;
      intake.runs.set(chain, run);
    }
    for (const scan of learnt.scans.values()) intake.resumeFrom(scan);
    const at = time.now();
    send(
      concluded(
        batchOf([itemOf(stationChain, { type: 'station', at, event: started }), ...intake.ofStation(started, at)]),
      ),
    );
  };

  resumeOpenJoints();
  cancelTick = clock.after(tickEvery, tick);

  return {
    intake,
    now: time.now,
    heardBefore: () => learnt.boards,
    wire(event) {
      const at = time.now();
      enqueue({ at, make: () => intake.ofWire(event, at), reading: event.type === 'sample' || event.type === 'told' });
    },
    portIdentified(port, identity) {
      const at = time.now();
      enqueue({ at, make: () => intake.ofIdentity(port, identity, at), reading: false });
    },
    open: (joint, who) => ask((at) => intake.ofOpening(joint, typeof who === 'string' ? { who } : who, at)),
    act: (joint, named) => ask((at) => intake.ofAct(joint, named, at)),
    procedure: (asked, signed) => ask((at) => procedures.ofAsked(asked, signed, at)),
    runs: () => [...intake.runs.values()],
    run: (joint) => intake.runs.get(joint),
    outlook: (joint) => foresee(intake.runs.get(joint)),
    notRecordingBecause: () => refusedBecause,
    clockStep: () => clockStep,
    onStep: (listener) => stepListeners.push(listener),
    onRecordingChange: (listener) => recordingListeners.push(listener),
    close() {
      sendAll(unsent);
      step();
      cancelStep?.();
      cancelTick?.();
      cancelTick = undefined;
    },
  };
}

const reasonOf = (cause: unknown): string => (cause instanceof Error ? cause.message : String(cause));
