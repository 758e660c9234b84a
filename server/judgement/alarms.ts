/**
 * The life of an alarm after IEC 62682: it waits its delay, is announced, comes back only past its deadband and after
 * its delay off, and leaves the list only when it is normal again and a named person has acknowledged it. What follows
 * from another alarm, what its phase mutes and what a person has put aside is watched as well and not announced.
 */
import type { Instant } from '../measure/quantity.ts';
import { alarmRules, followsFrom } from './alarm-rules.ts';
import { type Watched, watchedNow } from './alarm-watch.ts';
import type { Alarm, Suppression } from './assessment.ts';
import { boardsDue } from './boards.ts';
import { isShelved, settleShelvings, shelvingsDue } from './shelving.ts';
import { hasBegunWelding, type Mutable, type State } from './state.ts';
import { isWarming } from './trend.ts';

export function settleAlarms(state: State): void {
  state.underway ||= isUnderway(state);
  settleShelvings(state);
  const watched = watchedNow(state);
  for (const each of watched) settleOne(state, each, watched);
}

/** What left the joint by a revision has nothing left to watch. */
export function forgetUnwatched(state: State): void {
  const keys = new Set(watchedNow(state).map(({ key }) => key));
  state.alarms = state.alarms.filter(({ key }) => keys.has(key));
  state.shelvings = state.shelvings.filter(({ key }) => keys.has(key));
  for (const timer of state.alarmTimers.keys()) if (!keys.has(keyOf(timer))) state.alarmTimers.delete(timer);
}

/** The first who takes note of it counts. What is not announced needs no one. */
export function acknowledge(state: State, key: string, who: string): void {
  const alarm = state.alarms.find((each) => each.key === key);
  if (alarm?.announcedAt === undefined) return;
  if (alarm.state === 'returned unacknowledged') leave(state, alarm);
  if (alarm.state !== 'active') return;
  alarm.state = 'active acknowledged';
  alarm.acknowledgedBy = who;
  alarm.acknowledgedAt = state.now;
}

export const alarmsDue = (state: State): Instant[] => [
  ...Array.from(state.alarmTimers.values(), ({ due }) => due),
  ...shelvingsDue(state),
  ...boardsDue(state),
];

function settleOne(state: State, watched: Watched, all: readonly Watched[]): void {
  const { key, kind, active, clear } = watched;
  const { delayOn, delayOff } = alarmRules[kind];
  const alarm = state.alarms.find((each) => each.key === key);
  if (alarm === undefined) {
    const since = heldFor(state, 'on', key, active, delayOn);
    if (since === undefined) return;
    const risen: Mutable<Alarm> = { key, kind, state: 'active', since, ...watched.about };
    state.alarms.push(risen);
    announce(state, risen, suppressionOf(state, watched, all));
    return;
  }
  const suppressed = suppressionOf(state, watched, all);
  if (active) Object.assign(alarm, watched.about, { kind });
  if (alarm.state === 'returned unacknowledged') {
    if (heldFor(state, 'on', key, active, delayOn) !== undefined) riseAgain(alarm);
  } else {
    // Nobody was told that it was wrong: nobody waits to be told that it is right, nor is anybody told while it is.
    const isHeld = suppressed !== undefined || isShelved(state, key);
    const untold = alarm.announcedAt === undefined && !active && (clear || !isHeld);
    const since = heldFor(state, 'off', key, clear && !active, delayOff);
    if (untold || since !== undefined) {
      state.alarmTimers.delete(timerOf('off', key));
      returnToNormal(state, alarm, since ?? state.now);
    }
  }
  announce(state, alarm, suppressed);
}

/** Since when it has held, once that is as long as the delay; undefined before. The timer ends with either. */
function heldFor(
  { now, alarmTimers }: State,
  edge: 'on' | 'off',
  key: string,
  holds: boolean,
  delay: number,
): Instant | undefined {
  // Asked of everything that is watched, with every reading, while nearly always no timer runs.
  if (!holds && alarmTimers.size === 0) return undefined;
  const timer = timerOf(edge, key);
  const running = alarmTimers.get(timer) ?? { since: now, due: (now + delay) as Instant };
  const isOver = !holds || now >= running.due;
  if (isOver) alarmTimers.delete(timer);
  else alarmTimers.set(timer, running);
  return holds && isOver ? running.since : undefined;
}

function riseAgain(alarm: Mutable<Alarm>): void {
  alarm.state = 'active';
  delete alarm.returnedAt;
  delete alarm.announcedAt;
}

function returnToNormal(state: State, alarm: Mutable<Alarm>, since: Instant): void {
  if (alarm.state === 'active acknowledged' || alarm.announcedAt === undefined || isShelved(state, alarm.key)) {
    leave(state, alarm);
    return;
  }
  alarm.state = 'returned unacknowledged';
  alarm.returnedAt = since;
}

function leave(state: State, alarm: Alarm): void {
  state.alarms = state.alarms.filter((each) => each !== alarm);
}

/** Tells people, unless there is a reason not to: then it is told as soon as the reason is gone, if it stands still. */
function announce(state: State, alarm: Mutable<Alarm>, suppressed: Suppression | undefined): void {
  if (suppressed === undefined) delete alarm.suppressed;
  else alarm.suppressed = suppressed;
  if (alarm.state !== 'active' || alarm.announcedAt !== undefined) return;
  if (suppressed === undefined && !isShelved(state, alarm.key)) alarm.announcedAt = state.now;
}

const suppressionOf = (state: State, watched: Watched, all: readonly Watched[]): Suppression | undefined =>
  watched.muted ?? causeOf(state, watched, all);

/** The alarm that this one follows from, while it is wrong or stands. A board that is heard again explains nothing any more. */
function causeOf(state: State, { kind, about }: Watched, watched: readonly Watched[]): Suppression | undefined {
  const cause = followsFrom[kind];
  if (cause === undefined) return undefined;
  const causes = watched.filter(
    (each) =>
      each.kind === cause && each.muted === undefined && (cause !== 'board silent' || each.about.board === about.board),
  );
  const stands = (key: string): boolean =>
    cause !== 'board silent' &&
    state.alarms.some((each) => each.key === key && each.state !== 'returned unacknowledged');
  return causes.some(({ active, key }) => active || stands(key)) ? cause : undefined;
}

const isUnderway = (state: State): boolean =>
  state.heat !== 'not entered' ||
  hasBegunWelding(state) ||
  state.minimumFirstReachedAt !== undefined ||
  isWarming(state);

const timerOf = (edge: 'on' | 'off', key: string): string => `${edge} ${key}`;
const keyOf = (timer: string): string => timer.slice(timer.indexOf(' ') + 1);
