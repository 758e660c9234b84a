/**
 * The pair of one boot's ticks with the wall clock, and how each frame moves it. What it promises is said in
 * timeline.ts, which keeps one for each boot of each board.
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
  readonly stretch: Stretch;
  /** Stretches in which frames are missing, so that frames sent again fall into their place. */
  readonly gaps: readonly Gap[];
  /** The usual step of ticks, to tell a gap from a period. */
  readonly step: number;
}

/** What is watched before the pair is moved up: by the smallest delay in it the offset surely lags. */
export interface Stretch {
  readonly fromTicks: number;
  readonly frames: number;
  readonly delayLeast: number;
}

export interface Gap {
  readonly fromTicks: number;
  readonly fromAt: Instant;
  readonly toTicks: number;
  readonly toAt: Instant;
}

/** A new pair: these ticks were at this instant. */
export const begin = (boot: number, ticks: number, measuredAt: Instant, arrivedAt: Instant): BootMapping => ({
  boot,
  ticks,
  offset: measuredAt - ticks,
  measuredAt,
  arrivedAt,
  stretch: stretchFrom(ticks),
  gaps: [],
  step: 0,
});

/** The pair after a frame with later ticks, counted on through wraps; the frame lies at its measuredAt. */
export const advanced = (known: BootMapping, ticks: number, arrivedAt: Instant): BootMapping => {
  const { offset, stretch } = slewed(known, ticks, arrivedAt);
  const measuredAt = latest(known.measuredAt, (ticks + offset) as Instant);
  const passed = ticks - known.ticks;
  const isGap = known.step > 0 && passed > known.step + known.step / 2;
  return {
    boot: known.boot,
    ticks,
    offset,
    measuredAt,
    arrivedAt,
    stretch,
    gaps: isGap
      ? [...known.gaps, { fromTicks: known.ticks, fromAt: known.measuredAt, toTicks: ticks, toAt: measuredAt }].slice(
          -limits.gapsKept,
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
): { readonly offset: number; readonly stretch: Stretch } => {
  const delay = arrivedAt - (ticks + known.offset);
  if (delay < 0) return { offset: known.offset + delay, stretch: stretchFrom(ticks) };
  const { fromTicks } = known.stretch;
  const frames = known.stretch.frames + 1;
  const delayLeast = Math.min(known.stretch.delayLeast, delay);
  const passed = ticks - fromTicks;
  if (passed < stretchTicks || frames < stretchFrames) {
    return { offset: known.offset, stretch: { fromTicks, frames, delayLeast } };
  }
  const raise = Math.min(delayLeast, Math.floor(passed / slewDivisor));
  return { offset: known.offset + raise, stretch: stretchFrom(ticks) };
};

/** A frame sent again: between its neighbours where the gap is known, else by the present offset and never after the newest. */
export const placeLate = (known: BootMapping, ticks: number): Instant => {
  const gap = known.gaps.find(({ fromTicks, toTicks }) => ticks >= fromTicks && ticks <= toTicks);
  if (gap === undefined) return Math.min(known.measuredAt, ticks + known.offset) as Instant;
  const share = ((ticks - gap.fromTicks) * (gap.toAt - gap.fromAt)) / (gap.toTicks - gap.fromTicks);
  return (gap.fromAt + Math.floor(share)) as Instant;
};

/** From one 32-bit tick to another by the shorter way round. */
export const signedStep = (from: number, to: number): number => {
  const forward = (((to - from) % wrap) + wrap) % wrap;
  return forward < wrap / 2 ? forward : forward - wrap;
};

export const latest = (a: Instant, b: Instant): Instant => (a > b ? a : b);

const wrap = 2 ** 32;
/** A stretch is at least this long in ticks and in frames, so that one frame that came late moves nothing. */
const stretchTicks = 10_000;
const stretchFrames = 5;
const slewDivisor = 100;

const stretchFrom = (ticks: number): Stretch => ({ fromTicks: ticks, frames: 0, delayLeast: Number.MAX_SAFE_INTEGER });
