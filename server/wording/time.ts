/** Durations and points in time as text. A time that has passed is rounded down, a time to go up, so that neither flatters. */
import type { Instant, Milliseconds } from '../measure/quantity.ts';

/** Time passed: "45 s", "4 min 30 s", "25 min", "2 h 5 min", "3 d 4 h". Rounded down. */
export const durationText = (duration: Milliseconds): string => {
  const seconds = Math.floor(Math.max(0, duration) / 1000);
  if (seconds < 60) return `${seconds} s`;
  const minutes = Math.floor(seconds / 60);
  if (minutes < 10) return two(minutes, 'min', seconds % 60, 's');
  if (minutes < 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return hours < 48 ? two(hours, 'h', minutes % 60, 'min') : two(Math.floor(hours / 24), 'd', hours % 24, 'h');
};

/** Time to go, never exact: "under 1 min", "about 14 min", "about 2 h 5 min". Rounded up to the minute. */
export const aboutText = (duration: Milliseconds): string => {
  if (duration < 60_000) return 'under 1 min';
  const minutes = Math.ceil(duration / 60_000);
  return minutes < 60 ? `about ${minutes} min` : `about ${two(Math.floor(minutes / 60), 'h', minutes % 60, 'min')}`;
};

/** "2026-11-25 14:03:22 UTC+01:00": a point in time that means the same to every reader. Zone by its IANA name, or UTC. */
export const instantText = (instant: Instant, zone: string): string => {
  const part = partsOf(instant, zone);
  return `${part.year}-${part.month}-${part.day} ${part.hour}:${part.minute}:${part.second} ${part.offset}`;
};

/** "14:03:22": the time of day alone, where date and zone stand beside it. */
export const clockText = (instant: Instant, zone: string): string => {
  const { hour, minute, second } = partsOf(instant, zone);
  return `${hour}:${minute}:${second}`;
};

/** "2026-11-25". */
export const dateText = (instant: Instant, zone: string): string => {
  const { year, month, day } = partsOf(instant, zone);
  return `${year}-${month}-${day}`;
};

/** "2026-11-25T14:03:22.250+01:00": local time for files, to the millisecond. */
export const localStamp = (instant: Instant, zone: string): string => {
  const { year, month, day, hour, minute, second, offset } = partsOf(instant, zone);
  const thousandths = (((instant % 1000) + 1000) % 1000).toString().padStart(3, '0');
  return `${year}-${month}-${day}T${hour}:${minute}:${second}.${thousandths}${offset === 'UTC' ? '+00:00' : offset.slice(3)}`;
};

const two = (large: number, largeUnit: string, small: number, smallUnit: string): string =>
  small === 0 ? `${large} ${largeUnit}` : `${large} ${largeUnit} ${small} ${smallUnit}`;

interface Parts {
  readonly year: string;
  readonly month: string;
  readonly day: string;
  readonly hour: string;
  readonly minute: string;
  readonly second: string;
  /** "UTC" or "UTC+01:00". */
  readonly offset: string;
}

/** Making a formatter costs far more than using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

const partsOf = (instant: Instant, zone: string): Parts => {
  const found = Object.fromEntries(
    formatterOf(zone)
      .formatToParts(instant)
      .map(({ type, value }) => [type, value]),
  );
  const part = (name: string): string => found[name] ?? '';
  return {
    year: part('year').padStart(4, '0'),
    month: part('month'),
    day: part('day'),
    hour: part('hour'),
    minute: part('minute'),
    second: part('second'),
    offset: part('timeZoneName').replace('GMT', 'UTC').replace('+00:00', ''),
  };
};

const formatterOf = (zone: string): Intl.DateTimeFormat => {
  const known = formatters.get(zone);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    timeZoneName: 'longOffset',
  });
  formatters.set(zone, made);
  return made;
};
