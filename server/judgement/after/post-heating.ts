/**
 * Post-heating: every zone place at its temperature or above for its hours, counted without a break or summed, as the
 * procedure says; and until it begins the zone stays at the minimum preheat (AWS D10.10:2021, 5.3). A fall before it is
 * a finding that post-heating does not heal.
 */
import { type Instant, type Milliseconds, milliCelsius } from '../../measure/quantity.ts';
import { hottestUntrusted } from '../distrust.ts';
import { note, open } from '../findings.ts';
import { beginHold, holdDue, notBegun, passedOf, settleHold } from '../hold.ts';
import { gapAllowed, minimumNow, minimumProbes } from '../places.ts';
import { rules } from '../rules.ts';
import { isPassRunning, type State } from '../state.ts';
import { endWatch, hasLasted, tellLasting, watchedSince } from '../watches.ts';
import type { PostHeatingState } from './after-state.ts';
import type { PostHeatingStatus } from './after-status.ts';
import { zoneReaches, zoneStaysWithin } from './zone-now.ts';

const fallKey = 'after/minimum';
const unreadKey = 'after/minimum not judged';
const coldKey = 'after/post-heating';
const overKey = 'after/post-heating above';
const hiddenKey = 'after/post-heating above, not judged';

export function takePostHeating(state: State, begun: 'begun' | 'ended'): void {
  const { after: now } = state;
  if (begun === 'ended') endPostHeating(state);
  else if (now.postHeating === undefined || now.postHeating.endedAt !== undefined) {
    endFall(state);
    now.postHeating = { begunAt: state.now, hold: notBegun(), longest: 0 as Milliseconds };
  }
}

export function settlePostHeating(state: State): void {
  settleFalls(state);
  const asked = state.joint.postHeating;
  const running = runningOf(state);
  if (asked === undefined || running === undefined) return;
  settleOver(state, asked.maximumCelsius);
  const standing = zoneReaches(state, milliCelsius(asked.celsius));
  // A spike of noise voids no hold of hours.
  const below = hasLasted(state, coldKey, standing.below, rules.confirmFor);
  const { hold } = running;
  if (below) keepLongest(running, state.now);
  const idle = hold.state === 'not begun' || hold.state === 'voided';
  if (idle && standing.state === 'met') beginHold(hold, state.now);
  const belowSince = watchedSince(state, coldKey);
  const held = { ...standing, below, ...(belowSince === undefined ? {} : { belowSince }) };
  settleHold(state, hold, requiredOf(state)!, held, asked.counted);
  // A pause counts back to the last good reading.
  if (hold.state === 'paused') keepLongest(running, state.now);
}

export function postHeatingDue(state: State): Instant[] {
  const running = runningOf(state);
  const required = requiredOf(state);
  return running === undefined || required === undefined ? [] : holdDue(running.hold, required);
}

/** Ends it, and says what was missing of it. Also at closing, and where it never began. */
export function endPostHeating(state: State): void {
  const { postHeating } = state.after;
  endFall(state);
  for (const key of [overKey, hiddenKey, coldKey]) endWatch(state, key);
  if (postHeating === undefined || postHeating.endedAt !== undefined) return;
  postHeating.endedAt = state.now;
  keepLongest(postHeating, state.now);
  const required = requiredOf(state);
  if (required === undefined || postHeating.hold.firstDoneAt !== undefined) return;
  const { voidedBy } = postHeating.hold;
  const isBlind = postHeating.hold.state === 'paused' || voidedBy === 'gap';
  note(state, isBlind ? 'post-heating not judged' : 'post-heating not met', state.now, {
    value: postHeating.longest,
    limit: required,
  });
}

/** At closing: asked for, and nobody entered it. */
export function notePostHeatingMissing(state: State): void {
  const required = requiredOf(state);
  if (required === undefined || state.after.postHeating !== undefined) return;
  note(state, 'post-heating not judged', state.now, { value: 0, limit: required });
}

export function postHeatingStatus(state: State): PostHeatingStatus | undefined {
  const asked = state.joint.postHeating;
  const required = requiredOf(state);
  if (asked === undefined || required === undefined) return undefined;
  const { postHeating } = state.after;
  const doneAt = postHeating?.hold.firstDoneAt;
  const held = doneAt === undefined ? longestBy(postHeating, state.now) : required;
  return {
    state: stateOf(postHeating),
    minimum: milliCelsius(asked.celsius),
    ...(asked.maximumCelsius === undefined ? {} : { maximum: milliCelsius(asked.maximumCelsius) }),
    counted: asked.counted ?? 'continuous',
    required,
    held: Math.min(held, required) as Milliseconds,
    ...(postHeating === undefined ? {} : { begunAt: postHeating.begunAt }),
    ...(doneAt === undefined ? {} : { doneAt }),
    ...(postHeating?.endedAt === undefined ? {} : { endedAt: postHeating.endedAt }),
  };
}

const longestBy = (postHeating: PostHeatingState | undefined, now: Instant): number => {
  if (postHeating === undefined) return 0;
  return Math.max(postHeating.longest, postHeating.endedAt === undefined ? passedOf(postHeating.hold, now) : 0);
};

/** What a fall or a gap takes away stays known as the longest. */
const keepLongest = (running: PostHeatingState, now: Instant): void => {
  running.longest = Math.max(running.longest, passedOf(running.hold, now)) as Milliseconds;
};

function stateOf(postHeating: PostHeatingState | undefined): PostHeatingStatus['state'] {
  if (postHeating === undefined) return 'not begun';
  if (postHeating.hold.firstDoneAt !== undefined) return 'done';
  return postHeating.endedAt === undefined ? postHeating.hold.state : 'ended';
}

const requiredOf = ({ joint }: State): Milliseconds | undefined =>
  joint.postHeating === undefined ? undefined : (Math.round(joint.postHeating.hours * 3_600_000) as Milliseconds);

const runningOf = ({ after: { postHeating } }: State): PostHeatingState | undefined =>
  postHeating?.endedAt === undefined ? postHeating : undefined;

/** From the last pass on; whether it was the last is only known once welding is said to be complete. */
function settleFalls(state: State): void {
  const { falls, completedAt, postHeating } = state.after;
  const isWatched = state.joint.postHeating !== undefined && state.passes.length > 0 && postHeating === undefined;
  if (!isWatched || isPassRunning(state)) return;
  const minimum = minimumNow(state);
  const standing = falls.find(({ to }) => to === undefined);
  if (hasLasted(state, fallKey, minimum.below, rules.confirmFor)) {
    const { governing } = minimum;
    if (standing === undefined) {
      const { probe, temperature } = governing!;
      falls.push({ from: watchedSince(state, fallKey)!, probe, lowest: temperature });
    } else if (governing !== undefined && governing.temperature < standing.lowest) {
      standing.lowest = governing.temperature;
      standing.probe = governing.probe;
    }
  } else if (standing !== undefined && !minimum.below) standing.to = state.now;
  if (completedAt === undefined) return;
  tellFalls(state);
  const kind = 'minimum before post-heating not judged';
  tellLasting(state, unreadKey, minimum.state === 'not judged', gapAllowed(state, minimum), { kind, detail: {} });
}

function tellFalls(state: State): void {
  const limit = state.limits.preheatMinimum;
  for (const fall of state.after.falls) {
    const { probe, lowest: value } = fall;
    fall.key ??= open(state, 'minimum lost before post-heating', fall.from, {
      probe,
      value,
      ...(limit === undefined ? {} : { limit }),
    });
    const told = state.findings.find(({ key }) => key === fall.key)!;
    told.value = value;
    if (fall.to !== undefined) told.to = fall.to;
  }
}

/** Post-heating or another pass begins: what was watched until then ends. */
export function endFall(state: State): void {
  for (const fall of state.after.falls) fall.to ??= state.now;
  if (state.after.completedAt !== undefined) tellFalls(state);
  for (const key of [fallKey, unreadKey]) endWatch(state, key);
}

function settleOver(state: State, maximumCelsius: number | undefined): void {
  if (maximumCelsius === undefined) return;
  const limit = milliCelsius(maximumCelsius);
  const { below: isAbove, governing: now } = zoneStaysWithin(state, limit);
  const kind = 'post-heating above maximum';
  tellLasting(state, overKey, isAbove, rules.confirmFor, { kind, detail: { limit }, now, worse: 'higher' });
  const hidden = isAbove ? undefined : hottestUntrusted(state, minimumProbes(state), limit);
  tellLasting(state, hiddenKey, hidden !== undefined, rules.confirmFor, {
    kind: 'post-heating maximum not judged',
    detail: { limit },
    now: hidden,
    worse: 'higher',
  });
}
