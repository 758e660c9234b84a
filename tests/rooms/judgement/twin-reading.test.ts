/** Beside which probe a reading by hand is asked for, and when: by rule, never by chance. */
import { expect, test } from 'vitest';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { judgeAll } from '../../../server/judgement/judge.ts';
import { after } from '../../../server/measure/quantity.ts';
import type { Input } from '../../../server/weld/entry.ts';
import { readScenario, scenarioStart } from '../../support/scenario.ts';

const scenario = readScenario(`# three zone probes, an hour warm and more
joint: thickness 40, heated back, heaters off, minimum 150
period: 60
probe: T1, zone, A, front, 50
probe: T2, zone, B, front, 50
probe: T3, zone, B, front, 75
probe: T4, ambient

time      T1   T2   T3   T4   act
0:00:00   20   20   20   20
1:00:00   149  151  160  20
2:00:00   170  170  170  20   contact 173 zone beside T2
9:59:00   170  170  170  20
10:01:00  170  170  170  20   contact 170 zone beside T1
18:02:00  170  170  170  20   contact 160 zone beside T3
26:03:00  170  170  170  20
26:30:00  20   20   20   20
27:00:00  20   20   20   20
expect
`);
const at = (hours: number, minutes: number): Assessment => {
  const until = after(scenarioStart, (hours * 60 + minutes) * 60_000);
  const seen = (each: Input): boolean => (each.type === 'scan' ? each.scan.arrivedAt : each.at) <= until;
  return judgeAll(scenario.inputs.filter(seen), until).assessment;
};
const asked = (hours: number, minutes: number): string | undefined => at(hours, minutes).twinAsked?.probe;

test('none while it is cold; then the first of the joint that is warm', () => {
  expect(asked(0, 30)).toBeUndefined();
  expect(asked(1, 0)).toBe('T2');
  expect(asked(1, 10)).toBe('T1');
});

test('one a shift of 8 h, in turn: whichever went longest without', () => {
  expect(asked(2, 0)).toBeUndefined();
  expect(asked(9, 58)).toBeUndefined();
  expect(asked(10, 0)).toBe('T1');
  expect(asked(10, 5)).toBeUndefined();
  expect(asked(18, 2)).toBeUndefined();
  expect(asked(18, 1)).toBe('T3');
  expect(asked(26, 3)).toBe('T2');
});

test('none once it has cooled', () => {
  expect(asked(26, 59)).toBeUndefined();
});

test('the difference is kept with each probe', () => {
  expect(at(26, 0).twins?.map(({ probe, difference, agrees }) => ({ probe, difference, agrees }))).toEqual([
    { probe: 'T1', difference: 0, agrees: true },
    { probe: 'T2', difference: 3000, agrees: true },
    { probe: 'T3', difference: -10_000, agrees: true },
  ]);
});

test('the procedure may ask oftener, or not at all', () => {
  const [first, ...rest] = scenario.inputs as [Input & { type: 'station' }, ...Input[]];
  const with_ = (twinReadingHours: number): string | undefined => {
    const event = first.event as Extract<typeof first.event, { kind: 'opened' }>;
    const procedure = { ...event.joint.procedure!, twinReadingHours };
    const opened: Input = { ...first, event: { ...event, joint: { ...event.joint, procedure } } };
    const until = after(scenarioStart, 4 * 3_600_000);
    const seen = rest.filter((each) => (each.type === 'scan' ? each.scan.arrivedAt : each.at) <= until);
    return judgeAll([opened, ...seen], until).assessment.twinAsked?.probe;
  };
  expect(with_(2)).toBe('T1');
  expect(with_(4)).toBeUndefined();
  expect(with_(0)).toBeUndefined();
});
