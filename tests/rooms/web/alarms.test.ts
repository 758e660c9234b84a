/** Alarms as a screen lists them: the most urgent first, one line for a board of several joints, and the history in words. */
import { describe, expect, test } from 'vitest';
import type { Alarm } from '../../../server/judgement/assessment.ts';
import { after, minutes } from '../../../server/measure/quantity.ts';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { alarmHistory } from '../../../web/parts/alarm/history.ts';
import { alarmEntries, alarmedPlaces, asideChoices, heldBackOf } from '../../../web/parts/alarm/model.ts';
import { assessment, at } from '../wording/sample-assessment.ts';

const alarm = (kind: Alarm['kind'], more: Partial<Alarm> = {}): Alarm => ({
  key: kind,
  kind,
  state: 'active',
  since: at,
  announcedAt: at,
  ...more,
});
const joint = (id: string, ...alarms: Alarm[]): JointSummary => ({
  id,
  title: `Joint ${id}`,
  assessment: assessment({ alarms }),
});
const shelved = {
  key: 'probe/T1',
  kind: 'probe fault',
  by: 'Runa Teld',
  reason: 'new wire is fetched',
  at,
  until: after(at, minutes(30)),
} as const;

describe('the list', () => {
  test('puts what rings before what is known, and the urgent before the rest', () => {
    const list = alarmEntries([
      joint('a', alarm('probe fault'), alarm('above highest temperature', { state: 'active acknowledged' })),
      joint('b', alarm('board silent', { key: 'board/K1', board: 'K1', probes: ['T1'] }), alarm('below minimum')),
    ]);
    expect(list.map((each) => each.alarm.kind)).toEqual([
      'below minimum',
      'board silent',
      'probe fault',
      'above highest temperature',
    ]);
    expect(list.map((each) => each.joints[0]!.id)).toEqual(['b', 'b', 'a', 'a']);
  });

  test('tells a board that serves two joints once, since it fell silent for the first', () => {
    const silent = (minute: number) =>
      alarm('board silent', { key: 'board/K1', board: 'K1', probes: ['T1'], since: after(at, minutes(minute)) });
    const list = alarmEntries([joint('a', silent(1)), joint('b', silent(0))]);
    expect(list).toHaveLength(1);
    expect(list[0]!.joints.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(list[0]!.alarm.since).toBe(at);
    expect(list[0]!.what).toBe('Board K1 fell silent: nothing that it measures for 2 joints is judged while it is');
  });

  test('leaves out what is put aside or held back, and keeps what is held back in a list of its own', () => {
    const held = alarm('below minimum', { suppressed: 'first heating' });
    const one = joint('a', held, alarm('probe fault', { key: 'probe/T1', shelved }));
    expect(alarmEntries([one])).toEqual([]);
    expect(heldBackOf(one)).toEqual([held]);
  });

  test('offers no longer time for an urgent alarm than ten minutes', () => {
    expect(asideChoices(alarm('below minimum'))).toEqual([5, 10]);
    expect(asideChoices(alarm('board silent'))).toEqual([10, 30, 60]);
    expect(asideChoices(alarm('probe fault'))).toEqual([60, 240, 480]);
  });
});

test('the drawing marks every place of a silent board, and the most urgent where one has two', () => {
  const marks = alarmedPlaces([
    alarm('board silent', { probes: ['T1', 'T2'] }),
    alarm('above highest temperature', { probe: 'T2' }),
    alarm('probe fault', { probe: 'T3', state: 'returned unacknowledged' }),
  ]);
  expect([...marks].toSorted()).toEqual([
    ['T1', 'medium'],
    ['T2', 'high'],
  ]);
});

test('the history tells each change of an alarm in words', () => {
  const fault = alarm('probe fault', { key: 'probe/T1', probe: 'T1' });
  const changes: [Alarm, 'changed' | 'gone'][] = [
    [{ ...fault, announcedAt: undefined, suppressed: 'before heating' } as unknown as Alarm, 'changed'],
    [fault, 'changed'],
    [{ ...fault, state: 'active acknowledged', acknowledgedBy: 'Odd Varen', acknowledgedAt: at }, 'changed'],
    [{ ...fault, shelved }, 'changed'],
    [{ ...fault, announcedAt: after(at, minutes(30)) }, 'changed'],
    [{ ...fault, announcedAt: after(at, minutes(30)), state: 'returned unacknowledged' }, 'changed'],
    [fault, 'gone'],
  ];
  const told = alarmHistory(
    changes.map(([each, change], index) => ({ at: after(at, minutes(index)), change, alarm: each })),
    'metric',
    'UTC',
  );
  expect(told.map(({ change }) => change.replace(/\d\d:\d\d/, 'hh:mm'))).toEqual([
    'not announced before heating begins',
    'rang',
    'acknowledged by Odd Varen',
    'put aside by Runa Teld until hh:mm: new wire is fetched',
    'rang again',
    'no longer put aside',
    'back to normal, not acknowledged',
    'acknowledged, and gone',
  ]);
  expect(told[0]!.what).toBe('Probe fault at T1: its place is not judged');
});
