/** The course of the check at ambient at the screen, and what is said of a probe that is doubted. */
import { describe, expect, it } from 'vitest';
import { beginTouch, followTouch } from '../../../server/judgement/ambient/course.ts';
import { after, type Instant } from '../../../server/measure/quantity.ts';
import { actSchema } from '../../../server/weld/entry.ts';
import type { LiveJoint } from '../../../web/feed/live-joint.ts';
import {
  again,
  atRest,
  beginGuide,
  checkAct,
  leaveOut,
  nextProbe,
  outcomesOf,
  readGuide,
  readNow,
  touchSoFar,
  withTouch,
} from '../../../web/pages/joint/ambient-guide.ts';
import { deedsFor, meansFor, sparesOf } from '../../../web/pages/joint/probe-words.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { momentOf } from './page-fixture.ts';

const cold = momentOf(girderScript, 1);
const probes = cold.live.assessment.probes.map(({ probe }) => probe);
const [first, second] = probes as [string, string];

/** The joint with some probes at other temperatures, so many seconds later. */
const later = (seconds: number, celsius: Readonly<Record<string, number>>): { live: LiveJoint; now: Instant } => {
  const now = after(cold.now, seconds * 1000);
  const newest = Object.fromEntries(
    Object.entries(cold.live.newest).map(([probe, reading]) => [
      probe,
      { ...reading, at: now, temperature: (celsius[probe] ?? 20) * 1000 },
    ]),
  );
  return { live: { ...cold.live, newest }, now };
};

describe('the guide', () => {
  const start = later(0, {});
  const guide = beginGuide(start.live, start.now);

  it('takes what is fresh at rest, and leaves out what is not', () => {
    expect(guide.rest).toEqual(probes.map((probe) => ({ probe, celsius: 20 })));
    const old = after(start.now, 3_600_000);
    expect(atRest(start.live, old)).toEqual(probes.map((probe) => ({ probe })));
    const { [first]: reading, ...others } = start.live.newest;
    const open = { ...others, [first]: { probe: first, at: reading!.at, quality: 'open' as const } };
    expect(atRest({ ...start.live, newest: open }, start.now)[0]).toEqual({ probe: first });
  });

  it('goes from probe to probe; one that is left out, or cannot be read, is passed over', () => {
    expect(nextProbe(guide)).toBe(first);
    expect(nextProbe(leaveOut(guide, first))).toBe(second);
    expect(nextProbe(again(leaveOut(guide, first), first))).toBe(first);
    const unread = { ...guide, rest: guide.rest.map(({ probe }, at) => (at === 0 ? { probe } : guide.rest[at]!)) };
    expect(nextProbe(unread)).toBe(second);
  });

  it('keeps of each touch where a probe went furthest, and makes an act of it that the station takes', () => {
    let touch = beginTouch(first, 'warmed', readNow(start.live, start.now), start.now);
    expect(touchSoFar(touch, guide).outcome).toBe('does not move');
    for (const [seconds, celsius] of [
      [5, 21],
      [10, 22.4],
      [15, 21.8],
    ] as const) {
      const moment = later(seconds, { [first]: celsius, [second]: 20.1 });
      touch = followTouch(touch, readNow(moment.live, moment.now), moment.now);
    }
    expect(touchSoFar(touch, guide)).toEqual({ outcome: 'in order', moved: 2400 });
    const done = withTouch(guide, touch);
    expect(done.touches[0]!.readings).toEqual([{ probe: first, fromCelsius: 20, toCelsius: 22.4 }]);
    expect(withTouch(done, touch).touches).toHaveLength(1);
    expect(nextProbe(done)).toBe(second);
    expect(
      outcomesOf(done, 20)
        .probes.map(({ outcome }) => outcome)
        .slice(0, 2),
    ).toEqual(['in order', 'not touched']);
    const act = checkAct(done, 20.5, 'wall thermometer');
    expect(actSchema.parse(act)).toEqual(act);
    expect(checkAct(done, 20.5, '')).not.toHaveProperty('airReadWith');
  });

  it('is read again after a reload, and not where it is another joint or no guide', () => {
    const text = JSON.stringify(leaveOut(guide, first));
    expect(readGuide(text, probes)).toEqual(leaveOut(guide, first));
    expect(readGuide(text, probes.slice(1))).toBeUndefined();
    for (const other of ['', '{}', '{"rest":[],"touches":[],"leftOut":[]}', 'null', '{"rest":1}'])
      expect(readGuide(other, probes)).toBeUndefined();
  });
});

describe('a probe that is doubted', () => {
  const { assessment } = cold.live;
  const withUse = (use: string) => assessment.probes.find((each) => each.use === use)!;

  it('is told with what then is not judged', () => {
    const zone = withUse('zone');
    expect(meansFor('distrust probe', zone, assessment).join(' ')).toMatch(
      /^Not judged then: the minimum preheat at side [AB], (front|back) face/,
    );
    const interpass = withUse('interpass');
    const alone = {
      ...assessment,
      probes: assessment.probes.filter((each) => each.use !== 'interpass' || each === interpass),
    };
    expect(meansFor('distrust probe', interpass, alone)[0]).toContain('since no other probe measures it');
    for (const status of assessment.probes)
      for (const sentence of meansFor('distrust probe', status, assessment)) expect(sentence).toMatch(/^[A-Z].*\.$/);
  });

  it('can be trusted again only when it is not, and a spare is offered only where there is one', () => {
    const zone = withUse('zone');
    expect(deedsFor(zone, assessment)[0]).toBe('distrust probe');
    const distrusted = { ...zone, distrusted: { since: cold.now, by: 'person' as const, who: 'Ada' } };
    expect(deedsFor(distrusted, assessment)[0]).toBe('trust probe again');
    const spare = { ...zone, probe: 'S1', use: 'spare' as const };
    const withSpare = { ...assessment, probes: [...assessment.probes, spare] };
    expect(sparesOf(withSpare).map(({ probe }) => probe)).toContain('S1');
    expect(deedsFor(zone, withSpare)).toContain('spare takes over');
    expect(deedsFor(spare, withSpare)).not.toContain('spare takes over');
    expect(meansFor('spare takes over', zone, withSpare, 'S1')[0]).toContain('S1 is judged as');
  });
});
