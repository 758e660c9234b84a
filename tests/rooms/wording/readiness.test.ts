import { describe, expect, it } from 'vitest';
import type { Condition } from '../../../server/judgement/condition.ts';
import type { SectionOutlook } from '../../../server/judgement/inside/section-status.ts';
import type { PassStatus } from '../../../server/judgement/pass-status.ts';
import { milliCelsius, minutes } from '../../../server/measure/quantity.ts';
import { readinessSentence, unmetConditions } from '../../../server/wording/readiness.ts';
import { assessment, at, below } from './sample-assessment.ts';

const waiting: Condition = {
  id: 'soak',
  state: 'not met',
  reason: 'waiting after heat off',
  value: minutes(3),
  limit: minutes(8),
  timeToGo: minutes(5),
};
const noLimit: Condition = { id: 'evenness', state: 'not judged', reason: 'no limit stated' };
const pass: PassStatus = {
  pass: '3',
  passKind: 'fill',
  welder: 'A. Welder',
  startedAt: at,
  enteredAt: at,
  details: {},
  heat: { state: 'not asked', counted: 'heat input' },
  minimum: 'met',
  maximum: 'met',
  outside: [],
};

describe('the one sentence', () => {
  it('says what holds it up, where, against which limit, and how long', () => {
    expect(readinessSentence(assessment({ conditions: [below, noLimit] }))).toBe(
      'Not ready: opposite face 128 °C of 150 °C at T4, about 14 min',
    );
  });

  it('names the first thing to see to and counts the others, not an unasked one', () => {
    const hot: Condition = {
      id: 'highest temperature',
      state: 'not met',
      reason: 'too hot',
      probe: 'T1',
      value: milliCelsius(420),
      limit: milliCelsius(400),
    };
    const joint = assessment({ conditions: [waiting, below, hot, noLimit] });
    expect(readinessSentence(joint)).toBe('Not ready: too hot: 420 °C, at most 400 °C at T1; and 2 more');
    expect(unmetConditions(joint).map(({ id }) => id)).toEqual(['highest temperature', 'minimum reached', 'soak']);
  });

  it('tells the wait', () => {
    expect(readinessSentence(assessment({ phase: 'equalising', conditions: [waiting] }))).toBe(
      'Not ready: evening out with the heat off: 3 min of 8 min, about 5 min',
    );
  });

  describe('while a part is not warm through', () => {
    const cold: Condition = {
      id: 'through thickness',
      state: 'not met',
      reason: 'below minimum',
      part: 'plate A',
      value: milliCelsius(138),
      limit: milliCelsius(150),
    };
    const joint = assessment({ phase: 'equalising', conditions: [cold, waiting] });
    const ahead = (part: string, latest: number): SectionOutlook => ({
      part,
      course: 'held',
      ready: { earliest: minutes(5), latest: minutes(latest) },
      reaches: 'always',
    });

    it('tells the part that takes longest', () => {
      const outlook = { at, sections: [ahead('plate B', 12), ahead('plate A', 19)] };
      expect(readinessSentence(joint, outlook)).toBe(
        'Not ready: not warm through: coldest inside plate A 138 °C of 150 °C, warm through in 5 to 19 min; and 1 more',
      );
    });

    it('tells before all that a part never is, and what would help', () => {
      const never: SectionOutlook = {
        part: 'plate A',
        course: 'held',
        reaches: 'never',
        surfaceNeeded: milliCelsius(170.2),
        insulatedHelps: true,
      };
      expect(readinessSentence(joint, { at, sections: [ahead('plate B', 19), never] })).toMatch(
        /, never at this surface temperature: needs 171 °C, or insulate the far face; and 1 more$/,
      );
    });

    it('says no time where none is known', () => {
      expect(readinessSentence(joint)).toMatch(/138 °C of 150 °C; and 1 more$/);
    });
  });

  it('never rounds a cold place up to the minimum', () => {
    const close = { ...below, value: milliCelsius(149.96), timeToGo: minutes(0.5) };
    expect(readinessSentence(assessment({ conditions: [close] }))).toBe(
      'Not ready: opposite face 149.9 °C of 150 °C at T4, under 1 min',
    );
  });

  it('says ready only where the judge does', () => {
    const ready = { phase: 'ready', ready: true, coldest: { probe: 'T4', temperature: milliCelsius(156) } } as const;
    expect(readinessSentence(assessment(ready))).toBe('Ready: coldest opposite face 156 °C of 150 °C at T4');
    expect(readinessSentence(assessment({ ...ready, phase: 'between passes' }))).toBe(
      'Ready for the next pass: coldest opposite face 156 °C of 150 °C at T4',
    );
    expect(readinessSentence(assessment({ ...ready, ready: false, conditions: [] }))).toBe(
      'Not ready: waiting for readings',
    );
    expect(readinessSentence(assessment({ ...ready, ready: false, conditions: [waiting] }))).toMatch(/^Not ready/);
  });

  it('keeps the coldest place in sight while a pass runs', () => {
    const running = { phase: 'pass running', passes: [pass, { ...pass, pass: '4' }] } as const;
    const warm = { coldest: { probe: 'T4', temperature: milliCelsius(152) } };
    expect(readinessSentence(assessment({ ...running, ...warm, ready: true }))).toBe(
      'Passes 3, 4 running: coldest opposite face 152 °C of 150 °C at T4',
    );
    expect(readinessSentence(assessment({ ...running, conditions: [below, waiting] }))).toBe(
      'Passes 3, 4 running: coldest opposite face 128 °C of 150 °C at T4, below the minimum',
    );
    const blind: Condition = {
      id: 'minimum reached',
      state: 'not judged',
      reason: 'no trusted fresh reading',
      missing: ['T1'],
    };
    expect(readinessSentence(assessment({ ...running, ...warm, conditions: [blind] }))).toBe(
      'Passes 3, 4 running: coldest opposite face 152 °C of 150 °C at T4; no trusted reading now at T1',
    );
  });

  it('ends with the verdict', () => {
    expect(readinessSentence(assessment({ phase: 'closed', verdict: 'does-not-comply' }))).toBe(
      'Closed: does not comply',
    );
  });
});
