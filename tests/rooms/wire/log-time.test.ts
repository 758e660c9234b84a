import { describe, expect, it } from 'vitest';
import type { Instant } from '../../../server/measure/quantity.ts';
import { elapsedEpoch, elapsedUnitOf, offsetMinutesOf, readTime } from '../../../server/wire/log-time.ts';

const at = Date.UTC(2026, 10, 25, 13, 3, 22) as Instant;

describe('a date-time with its offset', () => {
  it.each([
    ['2026-11-25T14:03:22+01:00', 0],
    ['2026-11-25T13:03:22Z', 0],
    ['2026-11-25 14:03:22+0100', 0],
    ['2026-11-25 09:33:22.5 -03:30', 500],
    ['2026-11-25T13:03:22,2504Z', 250],
  ])('%s', (text, more) => {
    expect(readTime(text)).toEqual({ ok: true, at: at + more, form: 'stamped' });
  });

  it('takes its own offset before the one stated for the file', () => {
    expect(readTime('2026-11-25T14:03:22+01:00', { offsetMinutes: -300 })).toMatchObject({ at });
  });
});

describe('a local date-time', () => {
  it('asks for the offset', () => {
    expect(readTime('2026-11-25 14:03:22')).toEqual({
      ok: false,
      problem:
        '"2026-11-25 14:03:22" does not say its offset from UTC; state the offset of this file, as in +01:00, or its zone, as in Europe/Vienna',
      question: { asks: 'zone' },
    });
  });
  it.each(['2026-11-25 14:03:22', '2026-11-25T14:03:22', '25.11.2026 14:03:22'])('is read with it: %s', (text) => {
    expect(readTime(text, { offsetMinutes: 60 })).toEqual({ ok: true, at, form: 'local' });
  });
  it('may leave the seconds out', () => {
    expect(readTime('25.11.2026 14:03', { offsetMinutes: 60 })).toMatchObject({ at: at - 22_000 });
  });
});

describe('elapsed time', () => {
  it.each([
    ['0', 0],
    ['-5.00E+01', -50_000],
    ['12,25', 12_250],
    ['0:10:00', 600_000],
    ['26:00:01.5', 93_601_500],
    ['-0:00:50', -50_000],
  ])('%s counts from the stated epoch', (text, milliseconds) => {
    expect(readTime(text)).toEqual({ ok: true, at: elapsedEpoch + milliseconds, form: 'elapsed' });
    expect(readTime(text, { start: at })).toMatchObject({ at: at + milliseconds });
  });
  it('counts in the unit of its column', () => {
    expect(readTime('1.5', { unit: 'min' })).toMatchObject({ at: elapsedEpoch + 90_000 });
    expect(elapsedUnitOf(' Min ')).toBe('min');
    expect(elapsedUnitOf('C')).toBeUndefined();
  });
  it('has an epoch that says so', () => {
    expect(new Date(elapsedEpoch).toISOString()).toBe('2000-01-01T00:00:00.000Z');
  });
});

describe('what is refused, with what to write instead', () => {
  it.each([
    ['', /missing/],
    ['11/12/2026 14:03', /as day month year or as month day year; say which, or write 2026-11-25/],
    ['14:03', /h:mm, as mm:ss or as a time of day/],
    ['2026-11-25', /date without a time/],
    ['2026-02-30T10:00:00Z', /not a date and time of the calendar/],
    ['2026-11-25T24:00:00Z', /not a date and time of the calendar/],
    ['2026-13-01T10:00:00Z', /not a date and time of the calendar/],
    ['2026-11-25T10:60:00Z', /not a date and time of the calendar/],
    ['2026-11-25T10:00:60Z', /not a date and time of the calendar/],
    ['2026-11-25T10:00:00+15:00', /not an offset/],
    ['noon', /is not a time; allowed are/],
    ['1e300', /longer than a century/],
    ['NaN', /is not a time/],
  ])('"%s"', (text, problem) => {
    const read = readTime(text, { offsetMinutes: 0 });
    expect(read.ok).toBe(false);
    expect(!read.ok && read.problem).toMatch(problem);
  });
});

describe('an offset', () => {
  it.each([
    ['+01:00', 60],
    ['-0330', -210],
    ['Z', 0],
    ['UTC', 0],
    ['-00:00', 0],
    ['+1', undefined],
    ['+01:75', undefined],
    ['Berlin', undefined],
  ])('%s', (text, minutes) => {
    expect(offsetMinutesOf(text)).toBe(minutes);
  });
});
