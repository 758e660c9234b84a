import { describe, expect, it } from 'vitest';
import type { AfterStatus } from '../../../server/judgement/after/after-status.ts';
import type { Ahead, Required } from '../../../server/judgement/phases/ahead-status.ts';
import { instant, milliCelsius, minutes, seconds } from '../../../server/measure/quantity.ts';
import { aheadText } from '../../../server/wording/ahead.ts';
import { assessment, at } from './sample-assessment.ts';

const after: AfterStatus = {
  completedAt: at,
  postHeating: {
    state: 'running',
    minimum: milliCelsius(250),
    counted: 'continuous',
    required: minutes(120),
    held: minutes(10),
  },
  cover: { state: 'on', until: milliCelsius(100) },
  heatTreatment: { coolTo: milliCelsius(80) },
  wait: { state: 'cooling', hours: 48, to: milliCelsius(40) },
  spots: [],
};
const limits = {
  preheatMinimum: milliCelsius(150),
  interpassMaximum: milliCelsius(250),
  maintenanceMinimum: milliCelsius(120),
  highest: milliCelsius(300),
};
const now = (required: Required, more: Parameters<typeof assessment>[0] = {}): string =>
  aheadText(assessment({ limits, after, ahead: { required: [required] }, ...more })).now[0]!;

describe('what a phase asks for', () => {
  const numbers: readonly (readonly [Required, string])[] = [
    ['every place at the minimum', '150 °C'],
    ['keep the minimum', '150 °C'],
    ['stay below the highest', '300 °C'],
    ['cool to the maximum', '250 °C'],
    ['keep warm in the break', '120 °C'],
    ['keep the minimum until post-heating', '150 °C'],
    ['hold the post-heating', '250 °C or above for 2 h'],
    ['keep the cover on', '100 °C'],
    ['cool before heat treatment', '80 °C'],
    ['cool to ambient', '40 °C'],
  ];
  it.each(numbers)('%s carries its number', (required, number) => {
    expect(now(required)).toContain(number);
    expect(now(required)).not.toMatch(/undefined|\.$/);
  });

  it('names what else is to be cleared, and what the procedure leaves open after a cold break', () => {
    const conditions = [
      { id: 'minimum reached', state: 'not met', reason: 'below minimum' },
      { id: 'answers given', state: 'not met', reason: 'named answer missing' },
    ] as const;
    expect(now('other conditions', { ready: false, conditions })).toBe('to be cleared: named answers');
    const cold = { from: at, by: 'too cold', kept: 'below', below: minutes(3) } as const;
    expect(now('what the break asks for', { breaks: [cold] })).toMatch(/^ask the coordinator/);
  });
});

describe('when', () => {
  const when = (told: NonNullable<Ahead['when']>): string | undefined =>
    aheadText(assessment({ ahead: { required: [], next: 'ready', when: told } })).when;

  it('says whether it is a time that runs out or a guess from how it goes, and rounds up', () => {
    expect(when({ what: 'comes', time: seconds(601), by: 'time' })).toBe('about 11 min to go');
    expect(when({ what: 'comes', time: seconds(600), by: 'trend' })).toBe('about 10 min as it goes now');
    expect(when({ what: 'ends', time: seconds(300), by: 'trend' })).toBe('kept for about 5 min as it goes now');
  });

  it('is not said where nothing tells it', () => {
    const { when: told, next } = aheadText(assessment({ at: instant(at), ahead: { required: [], next: 'heating' } }));
    expect([told, next]).toEqual([undefined, 'heating']);
  });
});
