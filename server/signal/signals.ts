/**
 * OUTLET: lamp, horn and permission of the boards. Heartbeat and permission follow a commit that holds fresh readings of
 * that very board, never a timer: when recording, judging or this program stops, none is sent, and the board shows
 * fault and withholds permission by itself. The clock only ever takes away: it withholds what is no longer fresh.
 */
import type { Hello, HostFrame, Reply } from '../../firmware-protocol/codec/frame.ts';
import type { Assessment } from '../judgement/assessment.ts';
import type { CommittedItem } from '../ledger/item.ts';
import type { Clock } from '../measure/clock.ts';
import { type Instant, milliseconds } from '../measure/quantity.ts';
import { bounds } from './bounds.ts';
import { createOutput, type Outcome, type Output, type OutputKind } from './output.ts';
import { type Shown, shownFor, shownOf, shownTogether, type Why } from './shown.ts';

export interface SignalSource {
  readonly clock: Clock;
  /** The time that readings and judgements are compared with. */
  now(): Instant;
  isRecording(): boolean;
  /** Boards on which the joint has probes. */
  boardsOf(joint: string): ReadonlySet<string>;
  /** False if it did not go out. */
  write(port: string, frame: HostFrame): boolean;
}

export interface BoardSignal extends Omit<Shown, 'why'> {
  readonly board: string;
  readonly why: Why | 'measures too seldom';
  readonly outputs: readonly { readonly output: OutputKind; readonly outcome: Outcome }[];
}

export interface Signals {
  /** A committed step of one joint; without items it only tells that time has passed. */
  step(step: { joint: string; items: readonly CommittedItem[]; assessment: Assessment }): void;
  /** A board said hello: whatever it was told before may be gone. */
  heard(port: string, hello: Hello): void;
  lost(port: string): void;
  reply(port: string, reply: Reply): void;
  recordingChanged(): void;
  boards(): readonly BoardSignal[];
  /** Takes permission back and lets lamp and horn go. */
  close(): void;
}

interface Board {
  readonly port: string;
  readonly hello: Hello;
  readonly outputs: Readonly<Record<OutputKind, Output>>;
  /** Clock that does not step; absent before the first. */
  heartbeatAt?: number;
}

export function createSignals(source: SignalSource): Signals {
  const { clock } = source;
  const boards = new Map<string, Board>();
  const newest = new Map<string, Assessment>();
  let command = 0;
  let closed = false;
  let cancel = (): void => {};

  const wanted = (id: string): BoardSignal => {
    const board = boards.get(id);
    const joints = [...newest].filter(([joint]) => source.boardsOf(joint).has(id));
    const each = joints.map(([, assessment]) => (isPresent(assessment) ? shownOf(assessment) : shownFor('not known')));
    const shown = closed ? shownFor('no open joint') : shownTogether(each);
    const tooSeldom = board !== undefined && board.hello.periodMilliseconds > bounds.periodMaximum;
    return {
      board: id,
      ...shown,
      ...(tooSeldom && shown.permission === 'given' ? { permission: 'withheld', why: 'measures too seldom' } : {}),
      outputs: Object.values(board?.outputs ?? {}).map((each) => ({ output: each.kind, outcome: each.outcome() })),
    };
  };

  const isPresent = ({ at }: Assessment): boolean => source.isRecording() && source.now() - at <= bounds.fresh;

  const tell = (board: Board, output: Output, frame: HostFrame): void => {
    output.tell(frame, clock.monotonic(), (each) => source.write(board.port, each));
  };

  const next = (): number => {
    // The numbers above are the link's own.
    command = (command % 65_534) + 1;
    return command;
  };

  /** `followsCommit`: only then may anything go out that keeps or gives permission. */
  const settle = (id: string, followsCommit: boolean): void => {
    const board = boards.get(id);
    if (board === undefined) return;
    const { lamp, horn, permission } = wanted(id);
    const { outputs } = board;
    if (followsCommit) beat(board);
    if (permission === 'withheld' || followsCommit)
      tell(board, outputs.permission, { kind: 'permission', command: next(), state: permission });
    tell(board, outputs.lamp, { kind: 'lamp', command: next(), state: lamp });
    tell(board, outputs.horn, { kind: 'horn', command: next(), state: horn });
  };

  /** After too long without one the board has fallen back by itself: it is told everything again. */
  const beat = (board: Board): void => {
    const now = clock.monotonic();
    if (board.heartbeatAt !== undefined && now - board.heartbeatAt >= bounds.boardWithoutHeartbeat)
      for (const output of Object.values(board.outputs)) output.forget();
    board.heartbeatAt = now;
    tell(board, board.outputs.heartbeat, { kind: 'heartbeat', command: next() });
  };

  const settleAll = (): void => {
    for (const id of boards.keys()) settle(id, false);
  };

  const eachSecond = (): void => {
    cancel = clock.after(milliseconds(1000), eachSecond);
    settleAll();
  };
  eachSecond();

  return {
    step({ joint, items, assessment }) {
      newest.set(joint, assessment);
      const present = boardsMeasuredIn(items, source.now());
      for (const id of source.boardsOf(joint)) settle(id, present.has(id) && assessment.phase !== 'closed');
      if (assessment.phase === 'closed') newest.delete(joint);
    },
    heard(port, hello) {
      boards.set(hello.board, { port, hello, outputs: freshOutputs() });
    },
    lost(port) {
      for (const [id, board] of boards) if (board.port === port) boards.delete(id);
    },
    reply(port, reply) {
      for (const board of boards.values())
        if (board.port === port) for (const output of Object.values(board.outputs)) output.reply(reply);
    },
    recordingChanged: settleAll,
    boards: () => [...boards.keys()].map(wanted),
    close() {
      cancel();
      closed = true;
      settleAll();
    },
  };
}

const freshOutputs = (): Board['outputs'] => ({
  lamp: createOutput('lamp'),
  horn: createOutput('horn'),
  permission: createOutput('permission'),
  heartbeat: createOutput('heartbeat'),
});

/** Boards of which this commit holds a reading that is the present: what is sent again late keeps nothing alive. */
const boardsMeasuredIn = (items: readonly CommittedItem[], now: Instant): ReadonlySet<string> =>
  new Set(
    items.flatMap((item) =>
      item.type === 'scan' && !item.scan.late && now - item.scan.measuredAt <= bounds.fresh ? [item.scan.board] : [],
    ),
  );
