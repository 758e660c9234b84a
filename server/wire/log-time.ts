/**
 * The time column of a log or an events file. It is read in one form throughout, the form of its first
 * row, and nothing about it is guessed: a local time needs its offset, and a date that can be read in two
 * ways is refused.
 */

import { readNumber } from '../measure/number-text.ts';
import type { Instant } from '../measure/quantity.ts';

export interface TimeOptions {
  /** Where elapsed time begins. */
  readonly start?: Instant | undefined;
  /** Minutes east of UTC that a date-time without offset is in; 60 for UTC+01:00. */
  readonly offsetMinutes?: number | undefined;
  /** What a plain number counts; seconds unless the column says otherwise. */
  readonly unit?: ElapsedUnit | undefined;
}

export type ElapsedUnit = 'ms' | 's' | 'min' | 'h';

/** stamped: date-time with its offset. local: date-time without. elapsed: number or h:mm:ss from the start. */
export type TimeForm = 'stamped' | 'local' | 'elapsed';

export type TimeRead =
  | { readonly ok: true; readonly at: Instant; readonly form: TimeForm }
  | { readonly ok: false; readonly problem: string };

/**
 * Elapsed time counts from here where nothing else is said: 2000-01-01T00:00:00Z. The date then means
 * nothing; durations, which are what is judged, are right.
 */
export const elapsedEpoch: Instant = Date.UTC(2000, 0, 1) as Instant;

export const readTime = (text: string, options: TimeOptions = {}): TimeRead => {
  const trimmed = text.trim();
  const dated = iso.exec(trimmed) ?? dotted(trimmed);
  if (dated !== null) return readDated(trimmed, dated, options);
  const clock = hoursMinutesSeconds.exec(trimmed);
  if (clock !== null) return readClock(clock, options);
  const number = readNumber(trimmed);
  if (number.kind === 'number' && Number.isFinite(number.value)) {
    return elapsedAt(number.value * millisecondsPer[options.unit ?? 's'], options);
  }
  return { ok: false, problem: refusal(trimmed) };
};

/** "s", "(min)" and the like, as a unit of the time column; undefined if it is none. */
export const elapsedUnitOf = (text: string): ElapsedUnit | undefined => {
  const word = text.trim().toLowerCase();
  if (['ms', 'msec', 'milliseconds'].includes(word)) return 'ms';
  if (['s', 'sec', 'secs', 'second', 'seconds'].includes(word)) return 's';
  if (['min', 'mins', 'minute', 'minutes'].includes(word)) return 'min';
  if (['h', 'hr', 'hour', 'hours'].includes(word)) return 'h';
  return undefined;
};

/** "+01:00", "-03:30", "Z" to minutes east of UTC. */
export const offsetMinutesOf = (text: string): number | undefined => {
  const trimmed = text.trim();
  if (/^(z|utc)$/i.test(trimmed)) return 0;
  const found = /^([+-])(\d{1,2}):?(\d{2})$/.exec(trimmed);
  if (found === null) return undefined;
  const minutes = Number(found[2]) * 60 + Number(found[3]);
  if (Number(found[3]) > 59 || minutes > 14 * 60) return undefined;
  return found[1] === '-' ? 0 - minutes : minutes;
};

const millisecondsPer: Readonly<Record<ElapsedUnit, number>> = { ms: 1, s: 1000, min: 60_000, h: 3_600_000 };

const iso =
  /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)? ?(Z|UTC|[+-]\d{2}:?\d{2})?)?$/i;
const dottedForm = /^(\d{1,2})\.(\d{1,2})\.(\d{4})(?: (\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?)?$/;
const hoursMinutesSeconds = /^(-?)(\d{1,5}):([0-5]\d):([0-5]\d)(?:[.,](\d{1,9}))?$/;

/** Day.month.year, the only order that is written with points. Brought into the order of the other form. */
const dotted = (text: string): readonly (string | undefined)[] | null => {
  const found = dottedForm.exec(text);
  return found === null
    ? null
    : [found[0], found[3], found[2], found[1], found[4], found[5], found[6], found[7], undefined];
};

const readDated = (text: string, parts: readonly (string | undefined)[], options: TimeOptions): TimeRead => {
  const [, year, month, day, hour, minute, second, fraction, offset] = parts;
  if (hour === undefined) {
    return { ok: false, problem: `"${text}" is a date without a time; put date and time into one column` };
  }
  const count = [year, month, day, hour, minute, second ?? '0'].map(Number) as Six;
  const utc = Date.UTC(count[0], count[1] - 1, count[2], count[3], count[4], count[5]);
  const back = new Date(utc);
  const kept = [back.getUTCFullYear(), back.getUTCMonth() + 1, back.getUTCDate(), back.getUTCHours()];
  kept.push(back.getUTCMinutes(), back.getUTCSeconds());
  if (count.some((part, index) => part !== kept[index])) {
    return { ok: false, problem: `"${text}" is not a date and time of the calendar` };
  }
  const local = utc + thousandths(fraction);
  if (offset !== undefined) {
    const stated = offsetMinutesOf(offset);
    if (stated === undefined) return { ok: false, problem: `"${offset}" is not an offset from UTC, as in +01:00` };
    return { ok: true, at: (local - stated * 60_000) as Instant, form: 'stamped' };
  }
  if (options.offsetMinutes === undefined) {
    return {
      ok: false,
      problem: `"${text}" does not say its offset from UTC; state the offset of this file, as in +01:00`,
    };
  }
  return { ok: true, at: (local - options.offsetMinutes * 60_000) as Instant, form: 'local' };
};

type Six = [number, number, number, number, number, number];

const readClock = (parts: readonly (string | undefined)[], options: TimeOptions): TimeRead => {
  const [, sign, hours, minutes, seconds, fraction] = parts;
  const size = ((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000 + thousandths(fraction);
  return elapsedAt(sign === '-' ? 0 - size : size, options);
};

/** A century either way holds every log; beyond it the number is something else than a time. */
const elapsedAt = (milliseconds: number, { start = elapsedEpoch }: TimeOptions): TimeRead => {
  if (Math.abs(milliseconds) > 3.2e12) return { ok: false, problem: 'this elapsed time is longer than a century' };
  return { ok: true, at: (start + Math.round(milliseconds)) as Instant, form: 'elapsed' };
};

const thousandths = (fraction: string | undefined): number =>
  fraction === undefined ? 0 : Math.round(Number(`0.${fraction}`) * 1000);

const refusal = (text: string): string => {
  if (text === '') return 'the time is missing';
  if (/^\d{1,2}\/\d{1,2}\/\d{2,4}/.test(text)) {
    return `"${text}" can be read as day/month or month/day; write 2026-11-25 14:03:22`;
  }
  if (/^\d{1,2}:\d{2}$/.test(text)) return `"${text}" can be read as h:mm or mm:ss; write h:mm:ss`;
  return `"${text}" is not a time; allowed are 2026-11-25T14:03:22+01:00, 25.11.2026 14:03:22, h:mm:ss and a number of seconds`;
};
