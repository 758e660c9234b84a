/** When somebody who asked is told. Two minutes is what was asked for; the sums are computed here. */
import { describe, expect, test } from 'vitest';
import type { Condition } from '../../../server/judgement/condition.ts';
import type { Outlook, SectionOutlook } from '../../../server/judgement/inside/section-status.ts';
import { milliCelsius, minutes, seconds } from '../../../server/measure/quantity.ts';
import { calledText, timeUntil } from '../../../server/wording/call.ts';
import { assessment, at } from './sample-assessment.ts';

const unmet = (id: Condition['id'], facts: Partial<Condition> = {}): Condition => ({
  id,
  state: 'not met',
  reason: 'below minimum',
  ...facts,
});
const outlook = (...latest: (number | undefined)[]): Outlook => ({
  at,
  sections: latest.map(
    (each): SectionOutlook => ({
      part: 'plate',
      course: 'rising',
      reaches: 'always',
      ready: { earliest: minutes(0), ...(each === undefined ? {} : { latest: minutes(each) }) },
    }),
  ),
});

describe('ready', () => {
  const until = (conditions: Condition[], ahead?: Outlook, facts = {}) =>
    timeUntil('ready', assessment({ conditions, ...facts }), ahead);

  test('is as far away as the slowest condition', () => {
    const minimum = unmet('minimum reached', { timeToGo: minutes(9) });
    expect(until([minimum])).toBe(minutes(9));
    expect(until([minimum, unmet('through thickness')], outlook(4, 14))).toBe(minutes(14));
  });

  test('comes after a hold that begins when the minimum is reached', () => {
    const conditions = [unmet('minimum reached', { timeToGo: minutes(9) }), unmet('soak')];
    const hold = { soak: { rule: 'hold', state: 'not begun', required: minutes(20) } };
    expect(until(conditions, undefined, hold)).toBe(minutes(29));
    const wait = { soak: { rule: 'wait', state: 'not begun', required: minutes(20) } };
    expect(until(conditions, undefined, wait), 'nobody knows when the heat goes off').toBeUndefined();
  });

  test('is not known where one condition has no time, or a part does not get there in the time looked ahead', () => {
    expect(until([unmet('evenness')])).toBeUndefined();
    expect(until([unmet('through thickness')], outlook(4, undefined))).toBeUndefined();
    expect(until([unmet('through thickness')])).toBeUndefined();
  });

  test('is told two minutes before and not earlier', () => {
    const at = (milliseconds: number) =>
      assessment({ conditions: [unmet('minimum reached', { timeToGo: seconds(milliseconds / 1000) })] });
    expect(calledText('ready', at(120_001), undefined)).toBeUndefined();
    expect(calledText('ready', at(120_000), undefined)).toBe('ready in about 2 min');
    expect(calledText('ready', assessment({ ready: true }), undefined)).toBe('it is ready');
  });
});

test('the interpass window is told from the trend towards its maximum', () => {
  const hot = (timeToWindow?: number) =>
    assessment({
      interpass: { state: 'too hot', ...(timeToWindow === undefined ? {} : { timeToWindow: minutes(timeToWindow) }) },
    });
  expect(calledText('window', hot(), undefined)).toBeUndefined();
  expect(calledText('window', hot(3), undefined)).toBeUndefined();
  expect(calledText('window', hot(1.5), undefined)).toBe('the interpass window opens in about 1 min 30 s');
  expect(calledText('window', assessment({ interpass: { state: 'window' } }), undefined)).toBe(
    'the interpass window is open',
  );
});

test('the end of a break is told from the fall of the coldest place, and so is one that is over', () => {
  const limits = { preheatMinimum: milliCelsius(150), maintenanceMinimum: milliCelsius(120) };
  const fall = (time: number): Outlook => ({
    at,
    sections: [],
    breakByTrend: { probe: 'T4', limit: limits.maintenanceMinimum, time: minutes(time) },
  });
  const holding = assessment({ limits });
  expect(calledText('break', holding, fall(5))).toBeUndefined();
  expect(calledText('break', holding, fall(2))).toBe('the break runs out in about 2 min');
  const cold = assessment({ limits, coldest: { probe: 'T4', temperature: milliCelsius(119.9) } });
  expect(calledText('break', cold, undefined)).toBe('the break has run out');
});

test('a closed joint ends every call, in words', () => {
  expect(calledText('break', assessment({ phase: 'closed' }), undefined)).toMatch(/was closed/);
});
