/**
 * Points in time as a screen shows them: 24 h clock in the zone of the device, the zone named where it
 * matters. The zone can be handed in, so that a test says the same on every machine. Durations in words are
 * server/wording/time.ts.
 */
import type { Instant } from '../../server/measure/quantity.ts';

/** IANA name; undefined is the zone of the device. */
export type Zone = string | undefined;

export const clockText = (at: Instant, zone?: Zone): string =>
  format(at, { hour: '2-digit', minute: '2-digit', second: '2-digit' }, zone);
export const clockMinuteText = (at: Instant, zone?: Zone): string =>
  format(at, { hour: '2-digit', minute: '2-digit' }, zone);
export const dayText = (at: Instant, zone?: Zone): string =>
  format(at, { day: 'numeric', month: 'short', year: 'numeric' }, zone);
export const dayClockText = (at: Instant, zone?: Zone): string => `${dayText(at, zone)}, ${clockText(at, zone)}`;

/** The zone's short name at that instant, as in CET or GMT+2. */
export const zoneText = (at: Instant, zone?: Zone): string =>
  formatter({ hour: '2-digit', timeZoneName: 'short' }, zone)
    .formatToParts(at)
    .find((part) => part.type === 'timeZoneName')?.value ?? '';

/** Time of day alone when it was today, with the day when it was not. */
export const nearClockText = (at: Instant, now: Instant, zone?: Zone): string =>
  dayText(at, zone) === dayText(now, zone) ? clockText(at, zone) : dayClockText(at, zone);

/** An age in one unit, rounded down, for narrow places: "7 s", "2 min", "1 h", "3 d". */
export const ageText = (milliseconds: number): string => {
  const seconds = Math.max(0, Math.floor(milliseconds / 1000));
  if (seconds < 60) return `${seconds} s`;
  if (seconds < 3600) return `${Math.floor(seconds / 60)} min`;
  if (seconds < 172_800) return `${Math.floor(seconds / 3600)} h`;
  return `${Math.floor(seconds / 86_400)} d`;
};

/** How far the zone's clock is ahead of UTC at that instant, milliseconds. */
export const zoneOffset = (at: Instant, zone?: Zone): number => {
  const parts = formatter(
    { year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit', second: '2-digit' },
    zone,
  ).formatToParts(at);
  const of = (type: string): number => Number(parts.find((part) => part.type === type)?.value ?? 0);
  const shown = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'), of('second'));
  return shown - Math.floor(at / 1000) * 1000;
};

/** The newest instant up to `now` at which the zone's clock showed that time, as "13:05"; undefined where it is no time. */
export const clockBefore = (text: string, now: Instant, zone?: Zone): Instant | undefined => {
  const [, hour, minute] = /^\s*(\d{1,2}):(\d{2})\s*$/.exec(text) ?? [];
  if (hour === undefined || Number(hour) > 23 || Number(minute) > 59) return undefined;
  const offset = zoneOffset(now, zone);
  const day = 86_400_000;
  const midnight = Math.floor((now + offset) / day) * day;
  const at = midnight + (Number(hour) * 60 + Number(minute)) * 60_000 - offset;
  return (at > now ? at - day : at) as Instant;
};

const formatters = new Map<string, Intl.DateTimeFormat>();

const formatter = (options: Intl.DateTimeFormatOptions, zone?: Zone): Intl.DateTimeFormat => {
  const key = `${zone ?? ''}${JSON.stringify(options)}`;
  let found = formatters.get(key);
  if (found === undefined) {
    found = new Intl.DateTimeFormat('en-GB', {
      ...options,
      hourCycle: 'h23',
      ...(zone === undefined ? {} : { timeZone: zone }),
    });
    formatters.set(key, found);
  }
  return found;
};

const format = (at: Instant, options: Intl.DateTimeFormatOptions, zone?: Zone): string =>
  formatter(options, zone).format(at);
