/** The first and the last instant of a day in a zone. */
import { type Instant, instant } from '../measure/quantity.ts';
import { endOfDay, isDay } from '../weld/day.ts';
import { dateText, localStamp } from '../wording/time.ts';

const dayLength = 86_400_000;

export const dayBegins = (day: string, zone: string): Instant => inZone(endOfDay(day) + 1 - dayLength, zone);
export const dayEnds = (day: string, zone: string): Instant => instant(inZone(endOfDay(day) + 1, zone) - 1);

/**
 * The moment that a person means by "13:05", "13:05:20" or "2026-11-25 13:05" on a clock of the zone; without a day the newest such
 * moment up to `last`. Undefined for what is none.
 */
export function momentOf(text: string, last: Instant, zone: string): Instant | undefined {
  const [, day, hour, minute, second = '0'] =
    /^\s*(?:(\d{4}-\d{2}-\d{2})[T ]\s*)?(\d{1,2}):(\d{2})(?::(\d{2}))?\s*$/.exec(text) ?? [];
  if (hour === undefined || Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59) return undefined;
  if (day !== undefined && !isDay(day)) return undefined;
  const ofDay = (of: string): Instant =>
    inZone(endOfDay(of) + 1 - dayLength + ((Number(hour) * 60 + Number(minute)) * 60 + Number(second)) * 1000, zone);
  if (day !== undefined) return ofDay(day);
  const today = ofDay(dateText(last, zone));
  return today <= last ? today : ofDay(dateText(instant(last - dayLength), zone));
}

/** What a clock in UTC shows at the instant, a clock of the zone shows at the answer. */
function inZone(utc: number, zone: string): Instant {
  // The offset at the guess may be that of the other side of a change of clocks; the second look is right.
  const guess = utc - offsetAt(utc, zone);
  return instant(utc - offsetAt(guess, zone));
}

/** Milliseconds by which the zone is ahead of UTC. */
function offsetAt(at: number, zone: string): number {
  const [, sign, hours, minutes] = /([+-])(\d\d):(\d\d)$/.exec(localStamp(instant(at), zone))!;
  return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes)) * 60_000;
}
