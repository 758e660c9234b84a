/**
 * A time that has to pass at or above the minimum: the wait after the heat is off, the hold with heaters on, the hold
 * through the thickness. One place for what makes it run, pause, end and fall away: a fall below the minimum voids
 * it, missing readings pause it for at most a minute and only time that readings cover counts.
 */
import { after, type Instant, type Milliseconds } from '../measure/quantity.ts';
import type { Condition } from './condition.ts';
import { rules } from './rules.ts';
import type { State } from './state.ts';

export interface HoldState {
  state: 'not begun' | 'running' | 'paused' | 'done' | 'voided';
  done: Milliseconds;
  /** Since when the running stretch counts. */
  since?: Instant;
  pausedSince?: Instant;
  /** What stopped it is no missing reading: a place lies within the guard band. */
  pausedNear?: true;
  doneAt?: Instant;
  /** When it was done for the first time; stays when what was held falls away. */
  firstDoneAt?: Instant;
  voidedBy?: 'heat on' | 'below minimum' | 'gap' | 'guard band' | 'still rising' | 'break';
}

/** How what is held stands now; `below` also where another place cannot be read. */
export interface Standing {
  readonly state: 'met' | 'not met' | 'not judged';
  readonly below: boolean;
  /** Where a fall counts only once it has lasted: when it began. */
  readonly belowSince?: Instant;
  /** Probes that cannot be read. */
  readonly missing: readonly string[];
  /** Not judged since it lies within the guard band. */
  readonly near: boolean;
}

export const notBegun = (): HoldState => ({ state: 'not begun', done: 0 as Milliseconds });

export function beginHold(hold: HoldState, now: Instant): void {
  for (const key of ['pausedSince', 'pausedNear', 'doneAt', 'voidedBy'] as const) delete hold[key];
  hold.state = 'running';
  hold.done = 0 as Milliseconds;
  hold.since = now;
}

/**
 * Voids, pauses, resumes and ends a hold that has begun. Where it is cumulative nothing voids it: whatever stops it
 * pauses it, and it goes on where it was.
 */
export function settleHold(
  state: State,
  hold: HoldState,
  required: Milliseconds,
  standing: Standing,
  counted: 'continuous' | 'cumulative' = 'continuous',
): void {
  const isSummed = counted === 'cumulative';
  const counts = hold.state === 'running' || hold.state === 'paused' || hold.state === 'done';
  if (counts && standing.below && !isSummed) voidHold(hold, 'below minimum');
  if (hold.state === 'running' && (standing.state === 'not judged' || (standing.below && isSummed)))
    pause(state, hold, standing);
  if (hold.state === 'paused') {
    if (!isSummed && state.now - hold.pausedSince! > rules.gapPauses)
      voidHold(hold, hold.pausedNear === true ? 'guard band' : 'gap');
    else if (standing.state === 'met') resume(state, hold);
  }
  if (hold.state === 'running' && hold.done + (state.now - hold.since!) >= required) {
    hold.state = 'done';
    hold.done = required;
    hold.doneAt = state.now;
    hold.firstDoneAt ??= state.now;
  }
}

/** Instants at which the hold changes by itself. */
export function holdDue(hold: HoldState, required: Milliseconds): Instant[] {
  if (hold.state === 'running') return [after(hold.since!, required - hold.done)];
  return hold.state === 'paused' ? [after(hold.pausedSince!, rules.gapPauses + 1)] : [];
}

export function voidHold(hold: HoldState, voidedBy: NonNullable<HoldState['voidedBy']>): void {
  for (const key of ['since', 'pausedSince', 'pausedNear', 'doneAt'] as const) delete hold[key];
  hold.state = 'voided';
  hold.voidedBy = voidedBy;
  hold.done = 0 as Milliseconds;
}

/** What has passed of it by now. */
export const passedOf = (hold: HoldState, now: Instant): Milliseconds =>
  (hold.done + (hold.state === 'running' ? now - hold.since! : 0)) as Milliseconds;

/** What a hold that is stopped says as a condition. */
export const stopped = ({ pausedNear }: HoldState): Pick<Condition, 'state' | 'reason'> =>
  pausedNear === true
    ? { state: 'not judged', reason: 'stopped within guard band' }
    : { state: 'not met', reason: 'paused by gap' };

/** The pause begins at the last good reading of the place that is missing, or where the fall began. */
function pause(state: State, hold: HoldState, { missing, near, belowSince = state.now }: Standing): void {
  const lastGood = state.probes
    .filter((each) => missing.includes(each.probe.id))
    .map((each) => each.good?.at ?? hold.since!);
  const from = Math.max(hold.since!, Math.min(belowSince, ...lastGood)) as Instant;
  hold.done = (hold.done + (from - hold.since!)) as Milliseconds;
  hold.state = 'paused';
  hold.pausedSince = from;
  if (near) hold.pausedNear = true;
}

function resume(state: State, hold: HoldState): void {
  hold.state = 'running';
  hold.since = state.now;
  delete hold.pausedSince;
  delete hold.pausedNear;
}
