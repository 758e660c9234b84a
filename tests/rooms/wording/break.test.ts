import { expect, test } from 'vitest';
import type { BreakStatus } from '../../../server/judgement/breaks/break-status.ts';
import { type Instant, instant, milliCelsius, minutes } from '../../../server/measure/quantity.ts';
import { breakActText, breakAsksText, breakLines } from '../../../server/wording/break.ts';

const at = instant(Date.UTC(2026, 2, 2, 12));
const after = (count: number): Instant => (at + count * 60_000) as Instant;
const when = (time: Instant): string => `${(time - at) / 60_000} min`;
const cold: BreakStatus = {
  from: at,
  to: after(90),
  by: 'declared',
  who: 'Ada',
  reason: 'end of shift',
  coldest: { probe: 'T4', temperature: milliCelsius(96) },
  limit: milliCelsius(120),
  kept: 'below',
  below: minutes(70),
  asks: ['soak again', 'inspection'],
};

test('a break says how long, why, how cold, and whether the inspection that is asked for was made', () => {
  const [line] = breakLines([cold], after(100), 'metric', when);
  expect(line).toEqual({
    name: '0 min to 90 min',
    text: '1 h 30 min; declared by Ada: end of shift; fell below what is to be kept for 1 h 10 min, coldest 96 °C of 120 °C at T4; no inspection that counts is entered',
  });
  const inspection = { who: 'Bo', role: 'inspector', method: 'MT', result: 'no indication', at: after(95) } as const;
  const [inspected] = breakLines([{ ...cold, inspection }], after(100), 'metric', when);
  expect(inspected!.text).toMatch(/inspected by Bo, inspector \(MT\): no indication$/);
});

test('one that lasts counts until now, and one that nobody declared says why it is one', () => {
  const { to: _to, who: _who, reason: _reason, ...lasting } = cold;
  const [line] = breakLines([{ ...lasting, by: 'no pass', kept: 'not known' }], after(20), 'metric', when);
  expect(line!.name).toBe('0 min to now');
  expect(line!.text).toMatch(/^20 min; no pass for longer than .*; not known whether it stayed warm/);
});

test('what is asked for begins with the minimum, and nothing is said where the procedure says nothing', () => {
  expect(breakAsksText(cold, milliCelsius(150), 'metric')).toBe(
    'every place at 150 °C or above, soak again and inspection',
  );
  const { asks: _asks, ...silent } = cold;
  expect(breakAsksText(silent, milliCelsius(150), 'metric')).toBeUndefined();
});

test('an entry keeps the words of its writer', () => {
  expect(breakActText({ kind: 'break', state: 'begun', reason: 'rain' })).toBe('Break begun: rain');
  expect(breakActText({ kind: 'break inspected', method: 'PT', result: 'indication', note: 'at the root' })).toBe(
    'Inspected after a break (PT): indication. at the root',
  );
});
