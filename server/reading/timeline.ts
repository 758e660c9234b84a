/**
 * Board ticks to the joint's time line. The first frame of a boot pairs the board's ticks with the wall
 * clock; from then on the board's own ticks say how much time passed between two readings, and the pair
 * is only nudged so that neither clock runs away from the other.
 *
 * Promises, all on integer milliseconds:
 * - measuredAt is never after arrivedAt;
 * - within one boot a later tick never gets an earlier measuredAt;
 * - a burst after a stalled link keeps the spacing that the board measured;
 * - the pair is moved down at once when a frame would lie in the future (it came by a shorter way than
 *   those before it), and up by at most 1 % of the time passed (a slow board clock);
 * - ticks are a 32-bit counter and may wrap, about every 49.7 days.
 *
 * The caller keeps arrivedAt from stepping back (a wall clock that is set back is an entry of its own). If
 * it steps back all the same, the latest arrivedAt of the board stands in for it.
 */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { advanced, type BootMapping, begin, latest, placeLate, signedStep } from './boot-mapping.ts';

/** By board: its boots, newest first. Begin with an empty map. */
export type Timeline = ReadonlyMap<string, readonly BootMapping[]>;

export interface Arrived {
  readonly board: string;
  readonly boot: number;
  /** Board milliseconds since boot, 0 to 4294967295. */
  readonly ticks: number;
  /** True for a frame that the host asked for again: it may lie before the newest. */
  readonly resent: boolean;
  readonly arrivedAt: Instant;
}

export interface Placed {
  readonly timeline: Timeline;
  readonly measuredAt: Instant;
}

export const emptyTimeline: Timeline = new Map();

/** Places one frame. Hand in hellos too: a hello gives the pair before any frame is sent again. */
export const place = (timeline: Timeline, frame: Arrived): Placed => {
  const boots = timeline.get(frame.board) ?? [];
  const known = boots.find(({ boot }) => boot === frame.boot);
  if (known === undefined) return paired(timeline, frame, boots);
  const step = signedStep(known.ticks, frame.ticks);
  if (step < 0) {
    // A little before the newest: a hello overtook a sample that was measured earlier. Far before it and not
    // sent again: ticks began anew under the same boot number, on a board that cannot count its boots.
    if (frame.resent || step >= -overtakenMaximum)
      return { timeline, measuredAt: placeLate(known, known.ticks + step) };
    return paired(timeline, frame, without(boots, known));
  }
  const next = advanced(known, known.ticks + step, latest(known.arrivedAt, frame.arrivedAt));
  return {
    timeline: kept(timeline, frame.board, [next, ...without(boots, known)]),
    measuredAt: next.measuredAt,
  };
};

export interface RecordedScan {
  readonly board: string;
  readonly boot: number;
  readonly ticks: number;
  readonly measuredAt: Instant;
  readonly arrivedAt: Instant;
}

/**
 * Takes up a boot that was already placed before this program was started again, from a recorded scan. Of
 * several scans of one boot the newest counts, in whatever order they are handed in.
 */
export const resumed = (timeline: Timeline, scan: RecordedScan): Timeline => {
  const boots = timeline.get(scan.board) ?? [];
  const known = boots.find(({ boot }) => boot === scan.boot);
  if (known !== undefined && known.measuredAt >= scan.measuredAt) return timeline;
  const mapping = begin(scan.boot, scan.ticks, scan.measuredAt, scan.arrivedAt);
  const newestFirst = [mapping, ...without(boots, known)].toSorted((a, b) => b.measuredAt - a.measuredAt);
  return kept(timeline, scan.board, newestFirst);
};

/** Between measuring a sample and sending its line a hello may be sent; not longer than this, milliseconds. */
const overtakenMaximum = 5_000;

const without = (boots: readonly BootMapping[], known: BootMapping | undefined): readonly BootMapping[] =>
  boots.filter((mapping) => mapping !== known);

const paired = (timeline: Timeline, frame: Arrived, boots: readonly BootMapping[]): Placed => {
  const at = boots.reduce((newest, mapping) => latest(newest, mapping.arrivedAt), frame.arrivedAt);
  return {
    timeline: kept(timeline, frame.board, [begin(frame.boot, frame.ticks, at, at), ...boots]),
    measuredAt: at,
  };
};

/** Bounded: a station reads so many boards, and a board's lines sent again come from this boot or the last. */
const kept = (timeline: Timeline, board: string, boots: readonly BootMapping[]): Timeline => {
  const next = new Map(timeline);
  next.delete(board);
  next.set(board, boots.slice(0, limits.bootsKept));
  for (const oldest of next.keys()) {
    if (next.size <= limits.boardsMaximum) break;
    next.delete(oldest);
  }
  return next;
};
