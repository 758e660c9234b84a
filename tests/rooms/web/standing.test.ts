import { describe, expect, test } from 'vitest';
import { type Instant, after as later } from '../../../server/measure/quantity.ts';
import type { LiveJoint } from '../../../web/feed/live-joint.ts';
import { outsideNow, sentenceOf, staleRequired, standingOf } from '../../../web/state/standing.ts';
import { bracketScript, girderScript, nozzleScript } from '../../support/station/scripts.ts';
import { momentOf, recording } from './page-fixture.ts';

const live = (now: Instant) => ({ kind: 'live', now }) as const;

describe('ready', () => {
  const ready = momentOf(girderScript, 55);

  test('is shown while every required place is fresh and the station is heard and records', () => {
    const standing = standingOf(ready.live, live(ready.now), recording(ready.now));
    expect(standing.tone).toBe('ready');
    expect(sentenceOf(standing)).toMatch(/^Ready: coldest opposite face \d+ °C of 150 °C at B3$/);
    expect(outsideNow(standing, ready.live.assessment)).toBeUndefined();
  });

  test('holds just below three periods of the station’s time, and is gone at three', () => {
    const just = later(ready.now, 2_999);
    expect(standingOf(ready.live, live(just), recording(just)).tone).toBe('ready');
    const late = later(ready.now, 3_000);
    const standing = standingOf(ready.live, live(late), recording(late));
    expect(standing.tone).toBe('unknown');
    expect(sentenceOf(standing)).toBe('Not known: no fresh reading at A1, A2, B1, B2, A3 and B3 for 3 s');
  });

  test('is gone when one required place alone falls silent, and names it', () => {
    const { B3: _, ...others } = ready.live.newest;
    const now = later(ready.now, 2_000);
    const newest = Object.fromEntries(Object.entries(others).map(([id, reading]) => [id, { ...reading, at: now }]));
    const without: LiveJoint = { ...ready.live, newest };
    expect(staleRequired(without, now)).toEqual([{ probe: 'B3' }]);
    expect(standingOf(without, live(now), recording(now)).tone).toBe('unknown');
  });

  test('does not hang on a probe that answers for nothing', () => {
    const now = later(ready.now, 2_000);
    const newest = Object.fromEntries(
      Object.entries(ready.live.newest).map(([id, reading]) => [id, id === 'Pad' ? reading : { ...reading, at: now }]),
    );
    const end = later(now, 2_500);
    expect(standingOf({ ...ready.live, newest }, live(end), recording(end)).tone).toBe('ready');
  });

  test('is gone when the station was not heard for more than three seconds', () => {
    const standing = standingOf(
      ready.live,
      { kind: 'blind', now: ready.now, forMilliseconds: 7_400 },
      recording(ready.now),
    );
    expect(standing.tone).toBe('unknown');
    expect(sentenceOf(standing)).toBe('No word from the station for 7 s – do not rely on this screen');
    expect(outsideNow(standing, ready.live.assessment)).toContain('does not know');
  });

  test('is gone when the station speaks but no longer judges this joint', () => {
    const now = later(ready.now, 5_001);
    const newest = Object.fromEntries(
      Object.entries(ready.live.newest).map(([id, reading]) => [id, { ...reading, at: now }]),
    );
    const standing = standingOf({ ...ready.live, newest }, live(now), recording(now));
    expect(standing.tone).toBe('unknown');
    expect(sentenceOf(standing)).toBe('Not known: the station has not judged this joint for 5 s');
  });

  test('is gone when the station does not record, and the cause is told', () => {
    const station = { ...recording(ready.now), recording: false, notRecordingBecause: 'the disk is full' };
    const standing = standingOf(ready.live, live(ready.now), station);
    expect(standing.tone).toBe('unknown');
    expect(sentenceOf(standing)).toBe('Not recording: the disk is full');
  });
});

test('not ready is said with its reason, and a pass begun now would be outside', () => {
  const heating = momentOf(girderScript, 12);
  const standing = standingOf(heating.live, live(heating.now), recording(heating.now));
  expect(standing).toMatchObject({ tone: 'waiting', head: 'Not ready' });
  expect(outsideNow(standing, heating.live.assessment)).toMatch(/^opposite face \d+ °C of 150 °C at B3/);
});

test('a running pass within its limits is no alarm; with a required place silent the screen does not know', () => {
  const pass = momentOf(girderScript, 62.5);
  const running = standingOf(pass.live, live(pass.now), recording(pass.now));
  expect(running.tone).toBe('running');
  expect(outsideNow(running, pass.live.assessment)).toBeUndefined();
  const late = later(pass.now, 4_000);
  expect(standingOf(pass.live, live(late), recording(late)).tone).toBe('unknown');
});

test('a joint without any reading is not ready, and nothing about it is said to be old', () => {
  const silent = momentOf(bracketScript, 5);
  const standing = standingOf(silent.live, live(silent.now), recording(silent.now));
  expect(standing.tone).toBe('waiting');
  expect(sentenceOf(standing)).toMatch(/^Not ready: minimum preheat not known/);
});

test('a probe with a fault is a reason not to be ready', () => {
  const fault = momentOf(nozzleScript, 50);
  expect(sentenceOf(standingOf(fault.live, live(fault.now), recording(fault.now)))).toMatch(
    /^Not ready: no trusted reading now at N1/,
  );
});

test('another pass beside a running one is outside where its own conditions are not met', () => {
  const hot = momentOf(girderScript, 63.1);
  const standing = standingOf(hot.live, live(hot.now), recording(hot.now));
  expect(standing.tone).toBe('running');
  expect(outsideNow(standing, hot.live.assessment)).toMatch(/^too hot: interpass 2\d\d °C, at most 250 °C at W1/);
});
