/**
 * How long until the wall is warm enough through its whole thickness, from the present on: for the best, the likely
 * and the worst of what is not known, and whether it ever will be. Beyond the end of a ramp twelve time constants are
 * looked ahead; what has not come by then does not come.
 */
import type { MilliCelsius, Milliseconds } from '../measure/quantity.ts';
import { type Course, follow } from './ahead.ts';
import { bounds } from './bounds.ts';
import { backAhead, frontLeft } from './faces.ts';
import type { FarLoss } from './far-loss.ts';
import { coldestOf, type FaceCondition, held, insulated, meanOf } from './field.ts';
import { lossCasesOf } from './loss.ts';
import { type Refusal, refuse } from './refusal.ts';
import { type Section, sidewaysOf, wallsOf } from './section.ts';
import { leavingAhead } from './sideways.ts';
import { surfaceNeededFor } from './steady.ts';
import { timeConstantOf } from './time-constant.ts';
import type { Wall } from './wall.ts';

/** How the front goes on from its present reading. */
export type FaceCourse =
  | { readonly kind: 'held' }
  /** By the present trend to the set point, and held there; where none is known, on to where the properties end. */
  | { readonly kind: 'rising'; readonly kelvinPerMinute: number; readonly toCelsius?: number }
  /** The heat is off: a face under its pads at best, in a draught at worst. */
  | { readonly kind: 'left' };

export interface WarmingTarget {
  /** Minimum through the whole thickness. */
  readonly celsius: number;
  /** How long that has to last before it counts; what has lasted already is taken off by the caller. */
  readonly holdMilliseconds: number;
}

export interface WarmingOutlook {
  /** From the present; 0 where it is so already. Absent where it does not come in the best, the likely, the worst case. */
  readonly earliest?: Milliseconds;
  readonly likely?: Milliseconds;
  readonly latest?: Milliseconds;
  readonly reaches: 'always' | 'not at worst' | 'not likely' | 'never';
  /**
   * Held surface at which the worst case comes just to the minimum, after a long time. Absent where no surface within
   * the range of the properties does it, or where what the far side takes can not be named.
   */
  readonly surfaceNeeded?: MilliCelsius;
  /** It does not come in every case as it is, and would with an insulated far face. */
  readonly insulatedHelps: boolean;
}

/**
 * `now` is a section at its present (`sectionNow`). A far face goes on with the loss that probes on both faces found,
 * where it is handed in, else as its condition was entered (see `backAhead`), also where a probe has driven it until now.
 */
export function warmingOutlook(
  now: Section,
  course: FaceCourse,
  target: WarmingTarget,
  found?: FarLoss,
): WarmingOutlook | Refusal {
  const refused = targetRefused(now, course, target);
  if (refused !== undefined) return refused;
  const leaving = leavingOn(now, course, target);
  const after = (wall: Wall, back = backAhead(now, wall, found)) => {
    const sideways = leaving && ((at: number) => sidewaysOf(now, wall, leaving(at)));
    return readyAfter(wall, { ...courseOf(now, wall, course, target, back), ...(sideways && { sideways }) }, target);
  };
  const all = wallsOf(now).map((wall) => after(wall));
  const reached = all.filter((seconds) => seconds !== undefined);
  const [likely] = all;
  const reaches =
    reached.length === all.length
      ? 'always'
      : likely !== undefined
        ? 'not at worst'
        : reached.length > 0
          ? 'not likely'
          : 'never';
  const needed = surfaceNeededFor(now, target.celsius, found);
  return {
    ...(reached.length > 0 && { earliest: Math.floor(Math.min(...reached) * 1000) as Milliseconds }),
    ...(likely !== undefined && { likely: Math.round(likely * 1000) as Milliseconds }),
    ...(reaches === 'always' && { latest: Math.ceil(Math.max(...reached) * 1000) as Milliseconds }),
    reaches,
    ...(needed !== undefined && { surfaceNeeded: needed }),
    insulatedHelps:
      reaches !== 'always' && [now.coldSlow, now.coldQuick].every((wall) => after(wall, insulated) !== undefined),
  };
}

/** Seconds; undefined where it is not reached on this course. */
function readyAfter(wall: Wall, course: Course, { celsius, holdMilliseconds }: WarmingTarget): number | undefined {
  const hold = holdMilliseconds / 1000;
  let last = { at: 0, coldest: coldestOf(wall.field) };
  let since = last.coldest >= celsius ? 0 : undefined;
  if (since === 0 && hold === 0) return 0;
  let ready: number | undefined;
  follow(wall, course, (at, field) => {
    const coldest = coldestOf(field);
    if (coldest < celsius) since = undefined;
    else since ??= last.at + ((at - last.at) * (celsius - last.coldest)) / (coldest - last.coldest);
    last = { at, coldest };
    if (since !== undefined && at - since >= hold) ready = since + hold;
    return ready !== undefined;
  });
  return ready;
}

function courseOf(
  now: Section,
  wall: Wall,
  course: FaceCourse,
  { holdMilliseconds }: WarmingTarget,
  back: FaceCondition,
): Course {
  const beyond = (bounds.lookAheadTimeConstants * timeConstantOf(wall) + holdMilliseconds) / 1000;
  const present = wall.field.frontCelsius;
  if (course.kind === 'left') {
    const front = frontLeft(now, wall, leftCases);
    return { front: () => front, back, bends: [], until: beyond };
  }
  if (course.kind === 'held' || course.kelvinPerMinute === 0) {
    const front = held(present);
    return { front: () => front, back, bends: [], until: beyond };
  }
  const perSecond = course.kelvinPerMinute / 60;
  const { highestCelsius } = wall.spec.steel;
  const end = course.toCelsius ?? (perSecond > 0 ? highestCelsius : Math.min(present, wall.ambientCelsius));
  // A set point that is passed already is where the face comes back to at once.
  const seconds = Math.min(Math.max(0, (end - present) / perSecond), bounds.risingHoursMaximum * 3600);
  const last = seconds === 0 ? end : present + perSecond * seconds;
  const front = (at: number) => held(at < seconds ? present + perSecond * at : last);
  return { front, back, bends: [seconds], until: seconds + beyond };
}

/** What leaves sideways on this course, by the likely wall: the mean follows the face as far behind as it is now. */
function leavingOn(now: Section, course: FaceCourse, target: WarmingTarget): ((at: number) => number) | undefined {
  const { sideways, likely } = now;
  if (sideways === undefined) return undefined;
  const { front, until } = courseOf(now, likely, course, target, insulated);
  if (course.kind === 'left') return leavingAhead(sideways, until, undefined);
  const behind = likely.field.frontCelsius - meanOf(likely.field);
  return leavingAhead(sideways, until, (at) => front(at).celsius - behind);
}

/** Nothing is known of a face that was left: pads may lie on it. */
const leftCases = lossCasesOf('unknown')!;

function targetRefused(now: Section, course: FaceCourse, target: WarmingTarget): Refusal | undefined {
  const { steel } = now.spec;
  const rising = course.kind === 'rising' ? [course.kelvinPerMinute, course.toCelsius ?? 0] : [0, 0];
  if (![target.celsius, target.holdMilliseconds, ...rising].every(Number.isFinite) || target.holdMilliseconds < 0)
    return refuse('not a number', 'Minimum, time to hold, trend and set point must be numbers, the time not below 0.');
  const hottest = Math.max(target.celsius, rising[1]!);
  if (hottest <= steel.highestCelsius) return undefined;
  return refuse(
    'above the range of the properties',
    `${hottest} °C is above ${steel.highestCelsius} °C, to which the properties of ${steel.name} are known.`,
  );
}
