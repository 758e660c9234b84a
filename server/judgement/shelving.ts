/**
 * Putting an alarm aside: by a named person, for a reason, and never without an end. It goes on being watched and
 * recorded; when the time is over and it still stands, it is announced anew.
 */
import type { Instant } from '../measure/quantity.ts';
import type { Act } from '../weld/entry.ts';
import { alarmPriority, shelvedAtMost } from './alarm-rules.ts';
import type { Alarm } from './assessment.ts';
import type { Mutable, State } from './state.ts';

/** Nothing happens where no such alarm stands. Longer than its priority allows is taken as the longest allowed. */
export function shelve(state: State, { alarm: key, minutes, reason }: Act & { kind: 'shelve' }, by: string): void {
  const alarm = state.alarms.find((each) => each.key === key);
  if (alarm === undefined || alarm.state === 'returned unacknowledged') return;
  const time = Math.min(minutes * 60_000, shelvedAtMost[alarmPriority(alarm)]);
  const { kind } = alarm;
  state.shelvings = state.shelvings.filter((each) => each.key !== key);
  state.shelvings.push({ key, kind, by, reason, at: state.now, until: (state.now + time) as Instant });
}

export function unshelve(state: State, key: string): void {
  endShelvings(state, (each) => each.key === key);
}

/** Ends those whose time is over. */
export function settleShelvings(state: State): void {
  endShelvings(state, ({ until }) => until <= state.now);
}

export const shelvingsDue = ({ shelvings }: State): Instant[] => shelvings.map(({ until }) => until);

export const isShelved = ({ shelvings }: State, key: string): boolean => shelvings.some((each) => each.key === key);

/** The alarm as people see it. */
export function withShelving({ shelvings }: State, alarm: Alarm): Alarm {
  const shelved = shelvings.find((each) => each.key === alarm.key);
  return shelved === undefined ? { ...alarm } : { ...alarm, shelved };
}

function endShelvings(state: State, ends: (each: State['shelvings'][number]) => boolean): void {
  for (const { key } of state.shelvings.filter(ends)) {
    const alarm = state.alarms.find((each) => each.key === key);
    if (alarm !== undefined && alarm.state !== 'returned unacknowledged') makeNew(alarm);
  }
  state.shelvings = state.shelvings.filter((each) => !ends(each));
}

/** Whoever took note of it did so before it was put aside. */
function makeNew(alarm: Mutable<Alarm>): void {
  alarm.state = 'active';
  for (const told of ['acknowledgedBy', 'acknowledgedAt', 'announcedAt'] as const) delete alarm[told];
}
