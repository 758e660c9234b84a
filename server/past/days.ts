/** The first and the last instant of a day in a zone. */
import { type Instant, instant } from '../measure/quantity.ts';
import { endOfDay } from '../weld/day.ts';
import { localStamp } from '../wording/time.ts';

const dayLength = 86_400_000;

export const dayBegins = (day: string, zone: string): Instant => inZone(endOfDay(day) + 1 - dayLength, zone);
export const dayEnds = (day: string, zone: string): Instant => instant(inZone(endOfDay(day) + 1, zone) - 1);

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
