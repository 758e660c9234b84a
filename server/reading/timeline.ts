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

/** How one boot of one board maps to the time line: measuredAt = ticks since boot + offset. */
export interface BootMapping {
  readonly boot: number;
  /** Newest tick seen, counted on through wraps. */
  readonly ticks: number;
  readonly offset: number;
  readonly measuredAt: Instant;
  readonly arrivedAt: Instant;
  /** Where the present stretch began, and the smallest delay seen in it: the offset lags by at least that. */
  readonly windowFrom: number;
  readonly windowDelay: number;
  /** Stretches in which frames are missing, so that frames sent again fall into their place. */
  readonly gaps: readonly Gap[];
  /** The usual step of ticks, to tell a gap from a period. */
  readonly step: number;
}

export interface Gap {
  readonly fromTicks: number;
  readonly fromAt: Instant;
  readonly toTicks: number;
  readonly toAt: Instant;
}

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
  /** Present when ticks and wall clock were paired anew; goes into the record. */
  readonly paired?: { readonly board: string; readonly boot: number; readonly ticks: number; readonly at: Instant };
}

export const emptyTimeline: Timeline = new Map();

/** Places one frame. Hand in hellos too: a hello gives the pair before any frame is sent again. */
export const place = (timeline: Timeline, frame: Arrived): Placed => {
  const boots = timeline.get(frame.board) ?? [];
  const known = boots.find(({ boot }) => boot === frame.boot);
  if (known === undefined) return paired(timeline, frame, boots);
  const step = signedStep(known.ticks, frame.ticks);
  if (step < 0) {
    // Ticks that fall without being sent again began anew under the same boot number: a board that cannot count its boots.
    if (!frame.resent)
      return paired(
        timeline,
        frame,
        boots.filter((mapping) => mapping !== known),
      );
    return { timeline, measuredAt: placeLate(known, known.ticks + step) };
  }
  const next = advanced(known, known.ticks + step, latest(known.arrivedAt, frame.arrivedAt));
  return {
    timeline: kept(timeline, frame.board, [next, ...boots.filter((mapping) => mapping !== known)]),
    measuredAt: next.measuredAt,
  };
};

/** Takes up a boot that was already placed before this program was started again, from the newest recorded scan. */
export const resumed = (
  timeline: Timeline,
  scan: {
    readonly board: string;
    readonly boot: number;
    readonly ticks: number;
    readonly measuredAt: Instant;
    readonly arrivedAt: Instant;
  },
): Timeline => kept(timeline, scan.board, [begin(scan.boot, scan.ticks, scan.measuredAt, scan.arrivedAt)]);

const wrap = 2 ** 32;
const windowTicks = 10_000;
const slewDivisor = 100;
const gapsMaximum = 64;
const bootsMaximum = 2;

/** From one 32-bit tick to another by the shorter way round. */
const signedStep = (from: number, to: number): number => {
  const forward = (((to - from) % wrap) + wrap) % wrap;
  return forward < wrap / 2 ? forward : forward - wrap;
};

const begin = (boot: number, ticks: number, measuredAt: Instant, arrivedAt: Instant): BootMapping => ({
  boot,
  ticks,
  offset: measuredAt - ticks,
  measuredAt,
  arrivedAt,
  windowFrom: ticks,
  windowDelay: Number.MAX_SAFE_INTEGER,
  gaps: [],
  step: 0,
});

const paired = (timeline: Timeline, frame: Arrived, boots: readonly BootMapping[]): Placed => {
  const at = boots.reduce((newest, mapping) => latest(newest, mapping.arrivedAt), frame.arrivedAt);
  return {
    timeline: kept(timeline, frame.board, [begin(frame.boot, frame.ticks, at, at), ...boots]),
    measuredAt: at,
    paired: { board: frame.board, boot: frame.boot, ticks: frame.ticks, at },
  };
};

const advanced = (known: BootMapping, ticks: number, arrivedAt: Instant): BootMapping => {
  const { offset, windowFrom, windowDelay } = slewed(known, ticks, arrivedAt);
  const measuredAt = latest(known.measuredAt, (ticks + offset) as Instant);
  const passed = ticks - known.ticks;
  const isGap = known.step > 0 && passed > known.step + known.step / 2;
  return {
    boot: known.boot,
    ticks,
    offset,
    measuredAt,
    arrivedAt,
    windowFrom,
    windowDelay,
    gaps: isGap
      ? [...known.gaps, { fromTicks: known.ticks, fromAt: known.measuredAt, toTicks: ticks, toAt: measuredAt }].slice(
          -gapsMaximum,
        )
      : known.gaps,
    step: usualStep(known.step, passed, isGap),
  };
};

/** A gap moves the usual step a little, so that a changed period is learnt and a single gap is not. */
const usualStep = (step: number, passed: number, isGap: boolean): number => {
  if (passed === 0) return step;
  return isGap ? step + Math.ceil(step / 4) : passed;
};

/** The offset for a frame: down at once, up slowly by what even the quickest frame of a stretch lagged. */
const slewed = (
  known: BootMapping,
  ticks: number,
  arrivedAt: Instant,
): { readonly offset: number; readonly windowFrom: number; readonly windowDelay: number } => {
  const delay = arrivedAt - (ticks + known.offset);
  if (delay < 0) return { offset: known.offset + delay, windowFrom: ticks, windowDelay: Number.MAX_SAFE_INTEGER };
  const windowDelay = Math.min(known.windowDelay, delay);
  const passed = ticks - known.windowFrom;
  if (passed < windowTicks) return { offset: known.offset, windowFrom: known.windowFrom, windowDelay };
  const raise = Math.min(windowDelay, Math.floor(passed / slewDivisor));
  return { offset: known.offset + raise, windowFrom: ticks, windowDelay: Number.MAX_SAFE_INTEGER };
};

/** A frame sent again: between its neighbours where the gap is known, else by the present offset and never after the newest. */
const placeLate = (known: BootMapping, ticks: number): Instant => {
  const gap = known.gaps.find(({ fromTicks, toTicks }) => ticks >= fromTicks && ticks <= toTicks);
  if (gap === undefined) return Math.min(known.measuredAt, ticks + known.offset) as Instant;
  const share = ((ticks - gap.fromTicks) * (gap.toAt - gap.fromAt)) / (gap.toTicks - gap.fromTicks);
  return (gap.fromAt + Math.floor(share)) as Instant;
};

/** Bounded: a station reads so many boards, and a board's lines sent again come from this boot or the last. */
const kept = (timeline: Timeline, board: string, boots: readonly BootMapping[]): Timeline => {
  const next = new Map(timeline);
  next.delete(board);
  next.set(board, boots.slice(0, bootsMaximum));
  for (const oldest of next.keys()) {
    if (next.size <= limits.boardsMaximum) break;
    next.delete(oldest);
  }
  return next;
};

const latest = (a: Instant, b: Instant): Instant => (a > b ? a : b);
