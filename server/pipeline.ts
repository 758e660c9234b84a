/**
 * The trip: what comes from the wire and from people is read, judged and committed, in that order, by one
 * loop that takes one step at a time; only then is anybody told. Order in the chain is order of arrival.
 *
 *   wire --WireEvent--+            intake: reading (toScan),       record: commit
 *                     +--> queue --> judgement (take, assess) --> (tried until it succeeds) --> told
 *   desk --NamedAct---+
 */
import type { Assessment } from './judgement/assessment.ts';
import { type CommittedItem, type Item, itemOf, stationChain } from './ledger/item.ts';
import type { Clock } from './measure/clock.ts';
import { limits } from './measure/limits.ts';
import { type Instant, type Milliseconds, milliseconds } from './measure/quantity.ts';
import type { PortIdentity } from './trip/boards.ts';
import { createIntake, type Intake } from './trip/intake.ts';
import { conclude, type JointRun, resumeRun } from './trip/joint-run.ts';
import type { Input, NamedAct, StationEvent } from './weld/entry.ts';
import type { Joint } from './weld/joint.ts';
import type { Scan } from './weld/scan.ts';
import type { WireEvent } from './wire/event.ts';

/** What the pipeline needs of the record. */
export interface Store {
  commit(items: readonly Item[]): { readonly items: readonly CommittedItem[] };
  sealDue(now: Instant): void;
  /** Chains of joints that are open: those that go on. */
  chains(): readonly { readonly chain: string; readonly open: boolean; readonly position: number }[];
  inputs(chain: string): Iterable<Input>;
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
  /** Both resolve with the position once it is recorded, and reject with NotRecording while nothing can be. */
  open(joint: Joint, who: string): Promise<number>;
  act(joint: string, named: NamedAct): Promise<number>;
  runs(): readonly JointRun[];
  run(joint: string): JointRun | undefined;
  /** Why nothing is being recorded; undefined while all is well. */
  notRecordingBecause(): string | undefined;
  onStep(listener: (step: Step) => void): void;
  onRecordingChange(listener: () => void): void;
  /** Commits what waits and stops the clock's wake-ups. */
  close(): void;
}

export class NotRecording extends Error {}

export interface PipelineOptions {
  readonly store: Store;
  readonly clock: Clock;
  /** Program and rules version, written into each opening entry. */
  readonly rules: string;
  readonly station: string;
}

interface Asked {
  readonly done: (position: number) => void;
  readonly failed: (cause: Error) => void;
}
interface Queued {
  readonly make: () => Item[];
  /** Readings may be dropped when the queue is full, and are counted; what a person did is not. */
  readonly reading: boolean;
  readonly asked?: Asked;
}
interface Batch {
  readonly items: Item[];
  /** Who waits for which item. */
  asked: { readonly asked: Asked; readonly index: number }[];
}

const tickEvery = milliseconds(1000);
const clockStepAtLeast = 1000;

export function createPipeline({ store, clock, rules, station }: PipelineOptions): Pipeline {
  const intake = createIntake(rules, station);
  const stepListeners: ((step: Step) => void)[] = [];
  const recordingListeners: (() => void)[] = [];
  let queue: Queued[] = [];
  let dropped = 0;
  let newest = 0 as Instant;
  let cancelStep: (() => void) | undefined;
  let cancelTick: (() => void) | undefined;
  /** A batch that the record refused: tried again before anything else is taken, so that order stays. */
  let unsent: Batch | undefined;
  let refusedBecause: string | undefined;
  let clockOffset = clock.wall() - clock.monotonic();

  /** Arrival never steps back, whatever the wall clock does. */
  const stamp = (at: Instant = clock.wall()): Instant => {
    newest = Math.max(newest, at) as Instant;
    return newest;
  };

  const enqueue = (each: Queued): void => {
    if (queue.length >= limits.queueMaximum) {
      const oldest = queue.findIndex((waiting) => waiting.reading);
      queue.splice(Math.max(oldest, 0), 1);
      dropped += 1;
    }
    queue.push(each);
    cancelStep ??= clock.after(limits.commitGroupMilliseconds as Milliseconds, step);
  };

  /** One step: everything that waits, in its order, one commit, then the telling. */
  const step = (): void => {
    cancelStep?.();
    cancelStep = undefined;
    if (unsent !== undefined) return;
    const batch: Batch = { items: [], asked: [] };
    if (dropped > 0)
      batch.items.push(...intake.ofStation({ kind: 'station', state: 'not recording', lost: dropped }, stamp()));
    dropped = 0;
    const taken = queue;
    queue = [];
    for (const each of taken) {
      if (each.asked !== undefined) batch.asked.push({ asked: each.asked, index: batch.items.length });
      batch.items.push(...each.make());
    }
    send(concluded(batch));
  };

  const concluded = (batch: Batch): Batch => {
    for (const run of intake.openRuns()) if (run.touched) batch.items.push(...conclude(run, stamp()));
    return batch;
  };

  const send = (batch: Batch): void => {
    if (batch.items.length === 0) return;
    let committed: readonly CommittedItem[];
    try {
      committed = store.commit(batch.items).items;
    } catch (cause) {
      unsent = batch;
      // Whoever asked is told now; the act itself is kept and recorded as soon as the record takes it.
      for (const { asked } of batch.asked) asked.failed(new NotRecording(reasonOf(cause)));
      batch.asked = [];
      refuse(reasonOf(cause));
      return;
    }
    unsent = undefined;
    refuse(undefined);
    for (const { asked, index } of batch.asked) asked.done(committed[index]!.position);
    tell(committed);
  };

  const refuse = (because: string | undefined): void => {
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
    if (unsent !== undefined) send(unsent);
    step();
    if (unsent !== undefined) return;
    noticeClockStep();
    const now = stamp();
    for (const run of intake.openRuns()) {
      run.judge.advance(now);
      run.touched = true;
    }
    send(concluded({ items: [], asked: [] }));
    if (unsent === undefined) for (const run of intake.openRuns()) tellStep(run, []);
    try {
      store.sealDue(now);
    } catch (cause) {
      refuse(reasonOf(cause));
    }
  };

  /** The wall clock against the one that never steps: a jump is an entry, since times on both sides of it do not compare. */
  const noticeClockStep = (): void => {
    const offset = clock.wall() - clock.monotonic();
    const stepped = Math.round(offset - clockOffset);
    if (Math.abs(stepped) <= clockStepAtLeast) return;
    clockOffset = offset;
    send(concluded({ items: intake.ofStation({ kind: 'clock', steppedMilliseconds: stepped }, stamp()), asked: [] }));
  };

  const ask = (make: (at: Instant) => Item[]): Promise<number> =>
    new Promise((done, failed) => {
      if (refusedBecause !== undefined) return failed(new NotRecording(refusedBecause));
      const at = stamp();
      enqueue({ make: () => make(at), reading: false, asked: { done, failed } });
    });

  const resumeOpenJoints = (): void => {
    const at = stamp();
    const started: StationEvent = { kind: 'station', state: 'started' };
    for (const { chain, open, position } of store.chains()) {
      if (chain === stationChain || !open) continue;
      const newestScans = new Map<string, Scan>();
      const run = resumeRun(watchScans(store.inputs(chain), newestScans));
      if (run === undefined) continue;
      run.position = position;
      intake.runs.set(chain, run);
      for (const scan of newestScans.values()) intake.resumeFrom(scan);
    }
    send(
      concluded({
        items: [itemOf(stationChain, { type: 'station', at, event: started }), ...intake.ofStation(started, at)],
        asked: [],
      }),
    );
  };

  resumeOpenJoints();
  cancelTick = clock.after(tickEvery, tick);

  return {
    intake,
    wire(event) {
      const at = stamp(event.arrivedAt);
      enqueue({ make: () => intake.ofWire(event, at), reading: event.type === 'sample' });
    },
    portIdentified(port, identity) {
      const at = stamp();
      enqueue({ make: () => intake.ofIdentity(port, identity, at), reading: false });
    },
    open: (joint, who) => ask((at) => intake.ofOpening(joint, who, at)),
    act: (joint, named) => ask((at) => intake.ofAct(joint, named, at)),
    runs: () => [...intake.runs.values()],
    run: (joint) => intake.runs.get(joint),
    notRecordingBecause: () => refusedBecause,
    onStep: (listener) => stepListeners.push(listener),
    onRecordingChange: (listener) => recordingListeners.push(listener),
    close() {
      step();
      cancelTick?.();
    },
  };
}

const reasonOf = (cause: unknown): string => (cause instanceof Error ? cause.message : String(cause));

function* watchScans(inputs: Iterable<Input>, newest: Map<string, Scan>): Iterable<Input> {
  for (const input of inputs) {
    if (input.type === 'scan') newest.set(input.scan.board, input.scan);
    yield input;
  }
}
