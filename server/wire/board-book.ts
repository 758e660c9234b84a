/**
 * What this station has heard of each board, whatever the port: which of its samples came, which are being asked for
 * again, and on which port it speaks. A board that moves to another port, and a station that was started again, go on
 * from here. Promise: one identity is read on one port at a time. Where a second port says the same identity while the
 * first still speaks, these are two boards, and the second is told so.
 */
import type { Hello, HostFrame, Reply, Sample } from '../../firmware-protocol/codec/frame.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import type { Hole } from '../weld/hole.ts';
import { createRefill, type Refill } from './refill.ts';
import { createSequenceWatch, type SequenceWatch } from './sequence-watch.ts';

/** One opening of one port. */
export interface Holder {
  readonly port: string;
  send(frame: HostFrame): void;
  tell(board: string, hole: Hole): void;
  /** Another port speaks with this identity at the same time, for certain. */
  twin(heldOn: string): void;
}

export interface Talk {
  /** True if the line was not here before. */
  isNew(sample: Sample): boolean;
  /** Once it has been handed on: a hole may begin or be filled with it. */
  took(sample: Sample): void;
  /** To a question of the refill. */
  reply(reply: Reply): void;
  /** Sequence numbers of this board that never came. */
  missing(): number;
}

export type Greeting =
  | { readonly kind: 'read'; readonly talk: Talk }
  /** Another port has it, and may be about to let go: a board that was moved is asked again until then. */
  | { readonly kind: 'held'; readonly port: string };

/** What a record says of a board that was heard before this station was started. */
export interface HeardBefore {
  readonly boot: number;
  readonly ticks: number;
  readonly watch: SequenceWatch;
  /** Numbers below are told of already. */
  readonly settledBelow: number;
  /** It is told that the start is over. */
  readonly over: boolean;
}

export interface BoardBook {
  greet(hello: Hello, holder: Holder): Greeting;
  /** This opening reads the board no more; what is missing is asked for when it answers again. */
  leave(holder: Holder): void;
  /** Its starts, newest last. */
  resume(board: string, before: readonly HeardBefore[]): void;
}

/** One start of a board: its numbers begin anew with each. */
interface Start {
  readonly boot: number;
  ticks: number;
  readonly watch: SequenceWatch;
  readonly refill: Refill;
}

interface Known {
  /** Newest last; those before it are kept for a board whose name another one took meanwhile. */
  readonly starts: Start[];
  holder: Holder | undefined;
  /** Kept for telling what became of a hole after the port was lost. */
  last: Holder | undefined;
  /** Who else says this identity, since when on the clock that does not step. */
  readonly others: Map<Holder, number>;
}

export function createBoardBook(clock: Clock): BoardBook {
  const boards = new Map<string, Known>();

  const begin = (board: string, known: Known, before: HeardBefore): Start => {
    const { boot, ticks, watch, settledBelow, over } = before;
    const refill = createRefill({
      clock,
      boot,
      watch,
      settledBelow,
      over,
      // What cannot be written now is asked again once its time has run out.
      send: (frame) => known.holder?.send(frame),
      tell: (hole) => known.last?.tell(board, hole),
    });
    const start = { boot, ticks, watch, refill };
    known.starts.push(start);
    if (known.starts.length > limits.startsRemembered) known.starts.shift();
    return start;
  };

  /** The start that the hello belongs to; with a new one, the one before is over. */
  const startOf = (hello: Hello, known: Known): Start => {
    const newest = known.starts.at(-1);
    // A board that cannot count its starts may begin again under the same number: its ticks tell.
    const index = known.starts.findIndex(({ boot, ticks }) => boot === hello.boot && hello.ticks + overtakes >= ticks);
    const found = known.starts[index];
    if (found !== newest || newest === undefined) newest?.refill.over();
    if (found !== undefined) {
      known.starts.push(...known.starts.splice(index, 1));
      return found;
    }
    const watch = createSequenceWatch();
    // Of a board that was watched before, its first lines are missing too.
    watch.restart(newest !== undefined);
    const { boot, ticks } = hello;
    return begin(hello.board, known, { boot, ticks, watch, settledBelow: 0, over: false });
  };

  /** Bounded: of boards that no port holds, the one heard first is forgotten. */
  const keep = (board: string): Known => {
    const known: Known = { starts: [], holder: undefined, last: undefined, others: new Map() };
    boards.set(board, known);
    if (boards.size <= limits.boardsRememberedMaximum) return known;
    for (const [id, { holder }] of boards) {
      if (holder !== undefined || id === board) continue;
      boards.delete(id);
      break;
    }
    return known;
  };

  /** Two boards, once the first was heard again well after the second said its name. */
  const tellOthers = (known: Known): void => {
    const now = clock.monotonic();
    for (const [other, since] of known.others) {
      if (now - since < limits.twinCertainMilliseconds) continue;
      known.others.delete(other);
      other.twin(known.holder!.port);
    }
  };

  const talkOf = (known: Known, start: Start): Talk => ({
    isNew: (sample) => {
      if (!sample.resent) start.ticks = Math.max(start.ticks, sample.ticks);
      if (known.others.size > 0) tellOthers(known);
      return start.watch.isNew(sample.sequence, sample.resent);
    },
    took: start.refill.took,
    reply: start.refill.reply,
    missing: start.watch.missing,
  });

  return {
    greet(hello, holder) {
      const known = boards.get(hello.board) ?? keep(hello.board);
      if (known.holder !== undefined && known.holder !== holder) {
        if (!known.others.has(holder)) known.others.set(holder, clock.monotonic());
        return { kind: 'held', port: known.holder.port };
      }
      known.others.delete(holder);
      known.last ??= holder;
      const start = startOf(hello, known);
      start.ticks = hello.ticks;
      start.refill.hello(hello);
      known.holder = holder;
      known.last = holder;
      return { kind: 'read', talk: talkOf(known, start) };
    },
    leave(holder) {
      for (const known of boards.values()) {
        known.others.delete(holder);
        if (known.holder !== holder) continue;
        for (const { refill } of known.starts) refill.pause();
        known.holder = undefined;
      }
    },
    resume: (board, before) => {
      const known = keep(board);
      for (const start of before) begin(board, known, start);
    },
  };
}

/** A hello may be sent between the measuring of a sample and its line; not longer than this, milliseconds. */
const overtakes = 5_000;
