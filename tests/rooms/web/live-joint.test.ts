import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { LiveMessage } from '../../../server/screen/contract.ts';
import { beginLive, hasTurned, type LiveJoint, takeLive } from '../../../web/feed/live-joint.ts';
import { answers, takeTouch } from '../../../web/feed/touch.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { liveOf, momentOf } from './page-fixture.ts';

const start = momentOf(girderScript, 10);

/** What the station sends from then on, one message a second. */
const messages: LiveMessage[] = Array.from({ length: 20 }, (_, second) => {
  const now = (start.now + (second + 1) * 1000) as LiveMessage['now'];
  const readings = start.run.advance(now).map(({ probe, reading }) => ({ probe, ...reading }));
  return {
    joint: 'girder-splice-7',
    position: start.run.position,
    now,
    readings,
    assessment: start.run.judge.assess(),
  };
});
const all = messages.reduce(takeLive, start.live);

test('the newest reading of each probe and the last assessment stand', () => {
  expect(all.newest.A1!.at).toBe(messages.at(-1)!.now);
  expect(all.assessment.at).toBe(messages.at(-1)!.now);
  expect(all.position).toBe(messages.at(-1)!.position);
});

test('resume from any position, with messages sent again, is the same as never having been cut off', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 19 }), fc.integer({ min: 0, max: 19 }), (cut, back) => {
      const before = messages.slice(0, cut).reduce(takeLive, start.live);
      const resumed = messages.slice(Math.max(0, cut - back)).reduce(takeLive, before);
      expect(resumed).toEqual(all);
    }),
  );
});

test('a message of another joint changes nothing', () => {
  expect(takeLive(start.live, { ...messages[0]!, joint: 'another' })).toBe(start.live);
});

test('a reading that came late does not pass for the newest', () => {
  const late: LiveMessage = {
    ...messages.at(-1)!,
    position: all.position + 1,
    readings: [{ probe: 'A1', at: start.now, quality: 'good', temperature: 1 }],
  };
  expect(takeLive(all, late).newest.A1).toEqual(all.newest.A1);
});

test('a state that was fetched while newer messages came in does not set the page back', () => {
  const fetched = { ...start.live, headHash: 'b'.repeat(64), entries: 9 };
  const refreshed = beginLive(fetched, all);
  expect(refreshed).toMatchObject({
    position: all.position,
    assessment: all.assessment,
    entries: 9,
    headHash: 'b'.repeat(64),
  });
  expect(refreshed.newest).toEqual(all.newest);
});

test('a pass, an alarm or a changed limit turns the joint; mere readings do not', () => {
  expect(
    hasTurned(start.live, {
      ...all,
      assessment: { ...all.assessment, phase: start.live.assessment.phase },
    } as LiveJoint),
  ).toBe(false);
  start.run.act(
    'Ada Example',
    { kind: 'pass start', pass: '9', passKind: 'fill', welder: 'Bo Example' },
    messages.at(-1)!.now,
  );
  expect(hasTurned(all, liveOf(start.run))).toBe(true);
});

test('a probe warmed by hand answers at once, and for a while; drift and noise do not', () => {
  const reading = (second: number, celsius: number) =>
    ({ probe: 'A1', at: (second * 1000) as LiveMessage['now'], quality: 'good', temperature: celsius * 1000 }) as const;
  const after = (readings: readonly ReturnType<typeof reading>[]) => readings.reduce(takeTouch, {});
  const warmed = after([reading(0, 20), reading(1, 20.2), reading(2, 21), reading(3, 22)]);
  expect(answers(warmed, 'A1', 3_000)).toBe(true);
  expect(answers(warmed, 'A1', 12_900)).toBe(true);
  expect(answers(warmed, 'A1', 13_000)).toBe(false);
  const drift = after(
    Array.from({ length: 600 }, (_, second) => reading(second, 20 + second / 20 + Math.sin(second) * 0.2)),
  );
  expect(answers(drift, 'A1', 600_000)).toBe(false);
});
