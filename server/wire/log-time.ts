/**
 * The time of a row of a log, or of a line of an events file. It is read in one form throughout, and nothing about it is
 * guessed: a local time needs its zone or its offset, and what can be read in two ways is refused until somebody says which.
 */

import { readNumber } from '../measure/number-text.ts';
import type { Instant } from '../measure/quantity.ts';
import { type DateOrder, type DateRead, readDate, readTimeOfDay, thousandths } from './log-date.ts';
import type { LogQuestion } from './log-problem.ts';
import { zoneClock } from './log-zone.ts';

export interface TimeOptions {
  /** Where elapsed time begins. */
  readonly start?: Instant | undefined;
  /** Minutes east of UTC that a date-time without offset is in; 60 for UTC+01:00. */
  readonly offsetMinutes?: number | undefined;
  /** IANA name of the zone that a date-time without offset is in; goes before the offset. */
  readonly zone?: string | undefined;
  /** What a plain number counts; seconds unless the column says otherwise. */
  readonly unit?: ElapsedUnit | undefined;
  /** In which order dates are written that have several readings. */
  readonly order?: DateOrder | undefined;
  readonly numbers?: NumberedTime | undefined;
  /** Days of a spreadsheet count from 1904-01-01. */
  readonly from1904?: boolean | undefined;
  readonly clock?: ClockForm | undefined;
  /** The day on which times of day begin, on a line where local time counts like UTC. */
  readonly day?: number | undefined;
}

export const elapsedUnits = ['ms', 's', 'min', 'h'] as const;
export type ElapsedUnit = (typeof elapsedUnits)[number];

/** What a plain number of the time column is: elapsed time, days as spreadsheets count them, or seconds (or milliseconds) since 1970. */
export const numberedTimes = ['elapsed', 'spreadsheet days', 'unix seconds', 'unix milliseconds'] as const;
export type NumberedTime = (typeof numberedTimes)[number];

/** What h:mm:ss and a:bb without a date are. */
export const clockForms = ['elapsed', 'time of day', 'elapsed h:mm', 'elapsed mm:ss'] as const;
export type ClockForm = (typeof clockForms)[number];

/** stamped: an instant, with its offset. local: date-time, or time of day, without. elapsed: counted from the start. */
export type TimeForm = 'stamped' | 'local' | 'elapsed';

export type TimeRead =
  | {
      readonly ok: true;
      readonly at: Instant;
      readonly form: TimeForm;
      /** A clock of the zone shows this time twice; this is the second. */
      readonly secondAt?: Instant;
      /** No clock of the zone shows this time. */
      readonly isSkipped?: true;
    }
  | { readonly ok: false; readonly problem: string; readonly question?: LogQuestion };

/**
 * Elapsed time counts from here where nothing else is said: 2000-01-01T00:00:00Z. The date then means
 * nothing; durations, which are what is judged, are right.
 */
export const elapsedEpoch: Instant = Date.UTC(2000, 0, 1) as Instant;

export const readTime = (text: string, options: TimeOptions = {}): TimeRead => {
  const trimmed = text.trim().replaceAll(/\s+/g, ' ');
  const dated = readDate(trimmed);
  if (dated !== undefined) return atDate(trimmed, dated, options);
  const clock = clockForm.exec(trimmed);
  if (clock !== null) return atClock(trimmed, clock, options);
  const number = readNumber(trimmed);
  if (number.kind === 'number' && Number.isFinite(number.value)) return atNumber(trimmed, number.value, options);
  const ofDay = readTimeOfDay(trimmed);
  if (ofDay !== undefined) return atTimeOfDay(trimmed, ofDay, options);
  return { ok: false, problem: refusal(trimmed) };
};

/** "s", "(min)" and the like, as a unit of the time column; undefined if it is none. */
export const elapsedUnitOf = (text: string): ElapsedUnit | undefined => {
  const word = text.trim().toLowerCase();
  if (['ms', 'msec', 'milliseconds'].includes(word)) return 'ms';
  if (['s', 'sec', 'secs', 'second', 'seconds', 'sek'].includes(word)) return 's';
  if (['min', 'mins', 'minute', 'minutes'].includes(word)) return 'min';
  if (['h', 'hr', 'hrs', 'hour', 'hours', 'std'].includes(word)) return 'h';
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

/** 1899-12-30, from which spreadsheets count their days (from March 1900 on; their 1900 has a day too many). */
const spreadsheetEpoch = Date.UTC(1899, 11, 30);
const spreadsheetEpoch1904 = Date.UTC(1904, 0, 1);

const millisecondsPer: Readonly<Record<ElapsedUnit, number>> = { ms: 1, s: 1000, min: 60_000, h: 3_600_000 };

/** [d ]h:mm:ss[.fff], or two parts of which only a person knows whether they are hours and minutes. */
export const clockForm = /^(-?)(?:(\d{1,4})[ .d]{1,3})?(\d{1,5}):([0-5]\d)(?::([0-5]\d)(?:[.,:](\d{1,9}))?)?$/;

const atDate = (text: string, date: DateRead, options: TimeOptions): TimeRead => {
  const { orders, readings, offset, hasTime } = date;
  if (!hasTime) return { ok: false, problem: `"${text}" is a date without a time; say which column holds the time` };
  if (readings.length === 0) return { ok: false, problem: `"${text}" is not a date and time of the calendar` };
  // An order that was stated holds for every date that could be written in it.
  const isStated = options.order !== undefined && orders.includes(options.order);
  const possible = isStated ? readings.filter(([order]) => order === options.order) : readings;
  const [chosen] = possible;
  if (chosen === undefined) {
    return { ok: false, problem: `"${text}" is no date in the order ${options.order}, which holds for this file` };
  }
  if (possible.length > 1) {
    const choices = possible.map(([order]) => order);
    return {
      ok: false,
      problem: `"${text}" can be read as ${choices.join(' or as ')}; say which, or write 2026-11-25 14:03:22`,
      question: { asks: 'order', choices },
    };
  }
  if (offset === undefined) return ofLocal(text, chosen[1], options);
  const stated = offsetMinutesOf(offset);
  if (stated === undefined) return { ok: false, problem: `"${offset}" is not an offset from UTC, as in +01:00` };
  return { ok: true, at: (chosen[1] - stated * 60_000) as Instant, form: 'stamped' };
};

const ofLocal = (text: string, local: number, { zone, offsetMinutes }: TimeOptions): TimeRead => {
  if (zone !== undefined) {
    const clock = clockOf(zone);
    return clock === undefined ? { ok: false, problem: noZone(zone) } : { ok: true, form: 'local', ...clock(local) };
  }
  if (offsetMinutes !== undefined) return { ok: true, at: (local - offsetMinutes * 60_000) as Instant, form: 'local' };
  return {
    ok: false,
    problem: `"${text}" does not say its offset from UTC; state the offset of this file, as in +01:00, or its zone, as in Europe/Vienna`,
    question: { asks: 'zone' },
  };
};

export const noZone = (zone: string): string =>
  `"${zone}" is no time zone that this knows; name it as in Europe/Vienna or America/Chicago`;

/** Kept between rows: a clock remembers what it has looked up. */
let kept: { readonly zone: string; readonly clock: ReturnType<typeof zoneClock> } | undefined;
const clockOf = (zone: string): ReturnType<typeof zoneClock> => {
  if (kept?.zone !== zone) kept = { zone, clock: zoneClock(zone) };
  return kept.clock;
};

const atClock = (text: string, found: readonly (string | undefined)[], options: TimeOptions): TimeRead => {
  const [, sign, days, first, second, third, fraction] = found;
  if (options.clock === 'time of day' && days === undefined) {
    const size = readTimeOfDay(text);
    if (size === undefined) return { ok: false, problem: `"${text}" is not a time of day` };
    return atTimeOfDay(text, size, options);
  }
  if (third === undefined && options.clock !== 'elapsed h:mm' && options.clock !== 'elapsed mm:ss') {
    return {
      ok: false,
      problem: `"${text}" can be read as h:mm, as mm:ss or as a time of day; say which, or write h:mm:ss`,
      question: { asks: 'clock', choices: ['elapsed h:mm', 'elapsed mm:ss', 'time of day'] },
    };
  }
  const hours = Number(days ?? 0) * 24 + Number(first);
  const seconds =
    third === undefined
      ? (hours * 60 + Number(second)) * (options.clock === 'elapsed h:mm' ? 60 : 1)
      : (hours * 60 + Number(second)) * 60 + Number(third);
  const size = seconds * 1000 + thousandths(fraction);
  return elapsedAt(sign === '-' ? 0 - size : size, options);
};

const atTimeOfDay = (text: string, size: number, options: TimeOptions): TimeRead =>
  options.day === undefined
    ? {
        ok: false,
        problem: `"${text}" is a time of day without a date; say on which day the log begins, as in 2026-11-25`,
        question: { asks: 'day' },
      }
    : ofLocal(text, options.day + size, options);

const atNumber = (text: string, value: number, options: TimeOptions): TimeRead => {
  switch (options.numbers ?? 'elapsed') {
    case 'elapsed':
      return elapsedAt(value * millisecondsPer[options.unit ?? 's'], options);
    case 'spreadsheet days':
      // Days kept as a binary fraction miss a second by less than this; instruments do not write finer into one.
      return ofLocal(
        text,
        Math.round(((options.from1904 === true ? spreadsheetEpoch1904 : spreadsheetEpoch) + value * 86_400_000) / 10) *
          10,
        options,
      );
    case 'unix seconds':
      return { ok: true, at: Math.round(value * 1000) as Instant, form: 'stamped' };
    case 'unix milliseconds':
      return { ok: true, at: Math.round(value) as Instant, form: 'stamped' };
  }
};

/** A century either way holds every log; beyond it the number is something else than a time. */
const elapsedAt = (milliseconds: number, { start = elapsedEpoch }: TimeOptions): TimeRead => {
  if (Math.abs(milliseconds) > 3.2e12) return { ok: false, problem: 'this elapsed time is longer than a century' };
  return { ok: true, at: (start + Math.round(milliseconds)) as Instant, form: 'elapsed' };
};

const refusal = (text: string): string =>
  text === ''
    ? 'the time is missing'
    : `"${text}" is not a time; allowed are 2026-11-25T14:03:22+01:00, 25.11.2026 14:03:22, h:mm:ss and a number of seconds`;
