/**
 * From what came in to what is to be committed: a hello makes a board known, a sample becomes one scan for
 * each open joint on that board, an act becomes an input of its joint. Each input is judged as it is taken.
 */
import { Refusal } from '../desk/refusal.ts';
import { CanonicalFailure } from '../ledger/canonical.ts';
import { type EntryItem, type Item, itemOf } from '../ledger/item.ts';
import { assertRecordable } from '../ledger/recordable.ts';
import type { Instant } from '../measure/quantity.ts';
import { toScan } from '../reading/scan-of-sample.ts';
import { scanOfTold } from '../reading/scan-of-told.ts';
import { emptyTimeline, place, resumed, type Timeline } from '../reading/timeline.ts';
import type { Input, NamedAct, Source, StationEvent } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Scan } from '../weld/scan.ts';
import { type Signed, signedBy, signedOf } from '../weld/signed.ts';
import type { WireEvent } from '../wire/event.ts';
import { type Boards, boardsOf, createBoards, type PortIdentity, sourceOf } from './boards.ts';
import { feed, type JointRun, type Opened, startRun } from './joint-run.ts';
import type { ProcedureBook } from './procedure-book.ts';

export interface Intake {
  readonly boards: Boards;
  readonly runs: Map<string, JointRun>;
  openRuns(): JointRun[];
  ofWire(event: WireEvent, at: Instant): Item[];
  ofIdentity(port: string, identity: PortIdentity, at: Instant): Item[];
  /** Both throw Refusal where it cannot be recorded or came too late; then nothing was taken in. */
  ofOpening(joint: Joint, who: Signed, at: Instant): Item[];
  ofAct(joint: string, named: NamedAct, at: Instant): Item[];
  /** The same station event for every open joint. */
  ofStation(event: StationEvent, at: Instant): Item[];
  /** Goes on with a board's clock where the record left it. */
  resumeFrom(scan: Scan): void;
  /** The time line jumped: each board's clock is paired with it anew. */
  forgetBoardClocks(): void;
}

export interface IntakeOptions {
  readonly rules: string;
  readonly station: string;
  /** Given where what reaches far back is folded in beside the trip. */
  readonly foldBeside?: unknown;
  /** The source of all that comes, where it is played again. */
  readonly played?: Source;
}

export function createIntake(
  { rules, station, foldBeside, played }: IntakeOptions,
  committed: (chain: string) => Iterable<Input>,
  procedures: Pick<ProcedureBook, 'mustBeBindable'>,
): Intake {
  const beside = foldBeside !== undefined;
  const boards = createBoards();
  const runs = new Map<string, JointRun>();
  let timeline: Timeline = emptyTimeline;

  const openRuns = (): JointRun[] => [...runs.values()].filter((run) => !run.closed);
  const runsOn = (board: string): JointRun[] => openRuns().filter((run) => boardsOf(run.joint).has(board));

  const ofHello = (event: WireEvent & { type: 'hello' }, at: Instant): Item[] => {
    const { hello, port, connection } = event;
    const { board, boot, ticks, firmware, simulated, periodMilliseconds } = hello;
    const known = boards.byId.get(board);
    boards.byId.set(board, { hello, port, ...(connection === undefined ? {} : { connection }) });
    timeline = place(timeline, { board, boot, ticks, resent: false, arrivedAt: at }).timeline;
    return runsOn(board).flatMap((run) => {
      const items = sourceItems(run, at);
      if (known?.hello.boot !== boot || known.port !== port) {
        const named = connection === undefined ? {} : { connection };
        const before = run.ports.get(board) ?? port;
        const moved = before === port ? {} : { movedFrom: before };
        const event = { kind: 'board', board, boot, firmware, simulated, port, ...moved, ...named } as const;
        items.push(feed(run, stationInput(at, event)));
      }
      if (run.periods.get(board) !== periodMilliseconds) {
        items.push(feed(run, stationInput(at, { kind: 'period', board, periodMilliseconds })));
      }
      return items;
    });
  };

  const ofSample = ({ board, sample }: WireEvent & { type: 'sample' }, at: Instant): Item[] => {
    const hello = boards.byId.get(board)?.hello;
    if (hello === undefined) return [];
    const { boot, ticks, resent } = sample;
    const placed = place(timeline, { board, boot, ticks, resent, arrivedAt: at });
    timeline = placed.timeline;
    return runsOn(board).map((run) => {
      const { probes } = run.joint;
      const scan = toScan({ hello, sample, probes, measuredAt: placed.measuredAt, arrivedAt: at });
      return feed(run, { type: 'scan', scan });
    });
  };

  const ofTold = ({ board, told }: WireEvent & { type: 'told' }, at: Instant): Item[] => {
    const hello = boards.byId.get(board)?.hello;
    if (hello === undefined) return [];
    const { boot, ticks } = told;
    const placed = place(timeline, { board, boot, ticks, resent: false, arrivedAt: at });
    timeline = placed.timeline;
    return runsOn(board).flatMap((run) => {
      const { probes } = run.joint;
      const scan = scanOfTold({ hello, told, probes, measuredAt: placed.measuredAt, arrivedAt: at });
      return scan === undefined ? [] : [feed(run, { type: 'scan', scan })];
    });
  };

  const ofLink = ({ board, state, cause }: WireEvent & { type: 'link' }, at: Instant): Item[] => {
    if (board === undefined || (state !== 'lost' && state !== 'open')) return [];
    const link: StationEvent = { kind: 'link', board, state: state === 'lost' ? 'lost' : 'restored', cause };
    return runsOn(board).map((run) => feed(run, stationInput(at, link)));
  };

  const ofHole = ({ board, hole }: WireEvent & { type: 'hole' }, at: Instant): Item[] =>
    runsOn(board).map((run) => feed(run, stationInput(at, { kind: 'hole', board, ...hole })));

  const ofTwin = ({ board, port, heldOn }: WireEvent & { type: 'twin' }, at: Instant): Item[] =>
    runsOn(board).map((run) => feed(run, stationInput(at, { kind: 'twin', board, port, heldOn })));

  const sourceItems = (run: JointRun, at: Instant): Item[] => {
    const source = sourceOf(boards, run.joint);
    if (source === undefined || (source.kind === run.source.kind && source.detail === run.source.detail)) return [];
    // What was played by software once is in this record for good.
    if (run.source.kind === 'simulated') return [];
    // Played again: whatever port it once came from, nothing is measured now.
    if (played !== undefined && source.kind !== 'simulated') return [];
    // A person's word outranks a port without identity, and never outranks a board that says it is software.
    if (run.declared && source.kind !== 'simulated') return [];
    return [feed(run, stationInput(at, { kind: 'source', source }))];
  };

  const boardEvents = (joint: Joint): StationEvent[] =>
    [...boardsOf(joint)].flatMap((id): StationEvent[] => {
      const board = boards.byId.get(id);
      if (board === undefined) return [];
      const { boot, firmware, simulated, periodMilliseconds } = board.hello;
      return [
        {
          kind: 'board',
          board: id,
          boot,
          firmware,
          simulated,
          port: board.port,
          ...(board.connection === undefined ? {} : { connection: board.connection }),
        },
        { kind: 'period', board: id, periodMilliseconds },
      ];
    });

  return {
    boards,
    runs,
    openRuns,
    ofWire(event, at) {
      switch (event.type) {
        case 'hello':
          return ofHello(event, at);
        case 'sample':
          return ofSample(event, at);
        case 'told':
          return ofTold(event, at);
        case 'link':
          return ofLink(event, at);
        case 'hole':
          return ofHole(event, at);
        case 'twin':
          return ofTwin(event, at);
      }
    },
    ofIdentity(port, identity, at) {
      boards.identities.set(port, identity);
      return openRuns().flatMap((run) => sourceItems(run, at));
    },
    ofOpening(joint, who, at) {
      if (runs.has(joint.id)) throw new Refusal([{ field: 'joint.id', found: joint.id, allowed: taken }]);
      procedures.mustBeBindable(joint, 'joint.boundRevision');
      const first = boards.byId.get([...boardsOf(joint)][0] ?? '')?.hello;
      const opened: Opened = {
        kind: 'opened',
        joint,
        source: played ??
          sourceOf(boards, joint) ?? {
            kind: 'not verified',
            detail: 'no board of this joint has been heard yet',
          },
        periodMilliseconds: first?.periodMilliseconds ?? 1000,
        openedBy: who.who,
        rules,
        station,
      };
      const entry: EntryItem = {
        type: 'entry',
        chain: joint.id,
        at,
        ...signedOf(who),
        class: 'input',
        kind: 'opened',
        body: opened,
      };
      mustBeRecordable(entry, 'joint');
      const run = startRun(at, opened, () => committed(joint.id));
      runs.set(joint.id, run);
      return [entry, ...boardEvents(joint).map((event) => feed(run, stationInput(at, event)))];
    },
    ofAct(joint, named, at) {
      const run = runs.get(joint);
      if (run === undefined || run.closed)
        throw new Refusal([{ field: 'act', found: named.act.kind, allowed: notOpen }]);
      if (run.anew !== undefined && named.act.kind === 'close')
        throw new Refusal([{ field: 'act', found: 'close', allowed: beingFolded }]);
      if (named.act.kind === 'revise') procedures.mustBeBindable(named.act.joint, 'act.joint.boundRevision', run.joint);
      const input: Input = { type: 'act', at, ...signedBy(named.who, named.established), act: named.act };
      mustBeRecordable(itemOf(run.id, input), 'act');
      const item = feed(run, input, beside);
      return named.act.kind === 'revise' ? [item, ...sourceItems(run, at)] : [item];
    },
    ofStation: (event, at) => openRuns().map((run) => feed(run, stationInput(at, event))),
    resumeFrom(scan) {
      timeline = resumed(timeline, scan);
    },
    forgetBoardClocks() {
      timeline = emptyTimeline;
    },
  };
}

const stationInput = (at: Instant, event: StationEvent): Input => ({ type: 'station', at, event });

const taken = 'a name that no joint of this record has; this one is taken';
const beingFolded =
  'to be tried again in some seconds: an entry that reaches back is being judged, and the verdict must have it';
const notOpen = 'nothing more: this joint is closed; enter a new joint for further work';

/** Asked before it is judged: what is judged and cannot be kept must not exist. */
function mustBeRecordable(item: Item, field: string): void {
  try {
    assertRecordable(item);
  } catch (cause) {
    if (!(cause instanceof CanonicalFailure)) throw cause;
    throw new Refusal([{ field, found: cause.message, allowed: 'what the record can hold' }]);
  }
}
