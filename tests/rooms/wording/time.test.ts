import { describe, expect, it } from 'vitest';
import { type Instant, milliseconds } from '../../../server/measure/quantity.ts';
import { aboutText, clockText, dateText, durationText, instantText, localStamp } from '../../../server/wording/time.ts';

describe('durations', () => {
  it.each([
    [0, '0 s'],
    [-5, '0 s'],
    [59_999, '59 s'],
    [60_000, '1 min'],
    [479_999, '7 min 59 s'],
    [480_000, '8 min'],
    [600_000, '10 min'],
    [3_599_999, '59 min'],
    [3_600_000, '1 h'],
    [7_500_000, '2 h 5 min'],
    [172_800_000, '2 d'],
    [190_800_000, '2 d 5 h'],
  ])('that passed are rounded down: %i', (value, text) => {
    expect(durationText(milliseconds(value))).toBe(text);
  });

  it.each([
    [0, 'under 1 min'],
    [59_999, 'under 1 min'],
    [60_000, 'about 1 min'],
    [60_001, 'about 2 min'],
    [3_541_000, 'about 1 h'],
    [7_500_000, 'about 2 h 5 min'],
  ])('to go are rounded up: %i', (value, text) => {
    expect(aboutText(milliseconds(value))).toBe(text);
  });
});

describe('points in time', () => {
  const winter = Date.UTC(2026, 10, 25, 13, 3, 22, 250) as Instant;
  const summer = Date.UTC(2026, 6, 1, 22, 30, 0) as Instant;

  it('name their offset from UTC, as the zone has it on that day', () => {
    expect(instantText(winter, 'Europe/Berlin')).toBe('2026-11-25 14:03:22 UTC+01:00');
    expect(instantText(summer, 'Europe/Berlin')).toBe('2026-07-02 00:30:00 UTC+02:00');
    expect(instantText(winter, 'UTC')).toBe('2026-11-25 13:03:22 UTC');
    expect(instantText(winter, 'America/St_Johns')).toBe('2026-11-25 09:33:22 UTC-03:30');
  });

  it('have short forms beside a date and a zone', () => {
    expect(clockText(summer, 'Europe/Berlin')).toBe('00:30:00');
    expect(dateText(summer, 'Europe/Berlin')).toBe('2026-07-02');
  });

  it('keep the milliseconds in files and read back as the same instant', () => {
    for (const zone of ['UTC', 'Asia/Kolkata', 'America/St_Johns']) {
      expect(Date.parse(localStamp(winter, zone))).toBe(winter);
    }
    expect(localStamp(winter, 'Asia/Kolkata')).toBe('2026-11-25T18:33:22.250+05:30');
  });

  it('refuse a zone that does not exist', () => {
    expect(() => clockText(winter, 'Europe/Nowhere')).toThrow(/Nowhere/);
  });
});
