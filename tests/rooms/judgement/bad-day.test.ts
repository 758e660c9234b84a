/**
 * How often a bad day rings for the one who looks after a station. About 6 an hour is what one person can see to, more
 * than 10 in ten minutes is a flood, three of one kind within a minute chatter (IEC 62682 and ISA-18.2, from memory).
 * The same day without deadband, delay and first-out is beyond all three, so that the day is bad enough to tell.
 */
import { beforeAll, describe, expect, test, vi } from 'vitest';
import type * as AlarmRules from '../../../server/judgement/alarm-rules.ts';
import type * as Judging from '../../../server/judgement/judge.ts';
import { type Instant, instant } from '../../../server/measure/quantity.ts';
import { arrival, type Input } from '../../../server/weld/entry.ts';
import { badDay, dayHours } from '../../support/bad-day.ts';

const rulesFile = '../../../server/judgement/alarm-rules.ts';
const judgeFile = '../../../server/judgement/judge.ts';
/** Whoever looks after the station takes note of an alarm within this time. */
const noticed = 90_000;
const minutes = (count: number): number => count * 60_000;

interface Ring {
  readonly at: Instant;
  readonly joint: string;
  readonly key: string;
}

describe('a bad day', () => {
  let rings: readonly Ring[] = [];
  beforeAll(async () => {
    rings = await ringsOfTheDay();
  }, 120_000);

  test('rings no more than six times an hour on the average', () => {
    expect(rings.length / dayHours).toBeLessThanOrEqual(6);
  });

  test('is nowhere a flood, and nothing chatters', () => {
    expect(mostWithin(rings, minutes(10))).toBeLessThanOrEqual(10);
    expect(chattering(rings)).toEqual([]);
  });

  test('rings for each of what went wrong', () => {
    const keys = new Set(rings.map(({ joint, key }) => `${joint} ${key}`));
    for (const wrong of [
      'first below minimum',
      'first probe/T3',
      'first board/K1',
      'first break near its end',
      'first maintenance temperature lost',
      'second above highest temperature',
      'second probe/T5',
    ])
      expect(keys, wrong).toContain(wrong);
  });
});

describe('the same day without deadband, delay and first-out', () => {
  let rings: readonly Ring[] = [];
  beforeAll(async () => {
    vi.resetModules();
    vi.doMock(rulesFile, async (original) => bare((await original()) as typeof AlarmRules));
    rings = await ringsOfTheDay();
    vi.doUnmock(rulesFile);
    vi.resetModules();
  }, 120_000);

  test('is beyond what one person can see to', () => {
    expect(rings.length / dayHours).toBeGreaterThan(12);
    expect(mostWithin(rings, minutes(10))).toBeGreaterThan(10);
  });

  test('chatters', () => {
    expect(chattering(rings).length).toBeGreaterThan(0);
  });
});

const bare = (rules: typeof AlarmRules): object => ({
  ...rules,
  followsFrom: {},
  alarmRules: Object.fromEntries(
    Object.entries(rules.alarmRules).map(([kind, rule]) => [
      kind,
      { ...rule, delayOn: 0, delayOff: 0, deadbandMillikelvin: 0 },
    ]),
  ),
});

async function ringsOfTheDay(): Promise<readonly Ring[]> {
  const judging = (await import(judgeFile)) as typeof Judging;
  return [...ringsOf(judging, 'first', badDay(false)), ...ringsOf(judging, 'second', badDay(true))]
    .toSorted((a, b) => a.at - b.at)
    .filter((ring, index, all) => !isToldByTheOtherJoint(ring, all.slice(0, index)));
}

/** Judges the day of one joint, with a person who takes note of what rings. */
function ringsOf({ createJudge }: typeof Judging, joint: string, [opening, ...inputs]: readonly Input[]): Ring[] {
  if (opening?.type !== 'station' || opening.event.kind !== 'opened') throw new Error('a day begins with its opening');
  const judge = createJudge(opening.at, opening.event);
  const seen = new Set<string>();
  const rings: Ring[] = [];
  for (const input of inputs) {
    judge.take(input);
    const now = arrival(input);
    for (const { key, state, announcedAt } of judge.assess().alarms) {
      if (announcedAt === undefined) continue;
      const ring = `${key} ${announcedAt}`;
      if (!seen.has(ring)) rings.push({ at: announcedAt, joint, key });
      seen.add(ring);
      if (state !== 'active acknowledged' && now - announcedAt >= noticed)
        judge.take({ type: 'act', at: instant(now), who: 'Cy', act: { kind: 'acknowledge', alarm: key } });
    }
  }
  return rings;
}

/** A board of two joints is one line on the screen, and is heard once. */
const isToldByTheOtherJoint = ({ at, joint, key }: Ring, before: readonly Ring[]): boolean =>
  key.startsWith('board/') &&
  before.some((each) => each.key === key && each.joint !== joint && at - each.at < minutes(1));

const mostWithin = (rings: readonly Ring[], time: number): number =>
  Math.max(0, ...rings.map(({ at }) => rings.filter((each) => each.at >= at && each.at < at + time).length));

/** Alarms of one joint that ring three times within a minute. */
const chattering = (rings: readonly Ring[]): string[] => [
  ...new Set(
    rings
      .filter(({ at, joint, key }) => {
        const same = rings.filter((each) => each.joint === joint && each.key === key);
        return (
          mostWithin(
            same.filter((each) => each.at >= at && each.at < at + minutes(1)),
            minutes(1),
          ) >= 3
        );
      })
      .map(({ joint, key }) => `${joint} ${key}`),
  ),
];
