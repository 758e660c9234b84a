/** Each kind of not seeing has words of its own, and begins at its bound (web/feed/bounds.ts, own choice). */
import { describe, expect, test } from 'vitest';
import { type Instant, after as later } from '../../../server/measure/quantity.ts';
import { dataBlindness, type StationFacts, stationBlindness } from '../../../web/state/blindness.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { momentOf, recording } from './page-fixture.ts';

const now = 1_795_000_000_000 as Instant;
const well: StationFacts = {
  contact: { kind: 'live', now },
  connected: true,
  view: recording(now),
  clockLead: 0,
  away: undefined,
  monotonic: 60_000,
  heardAt: 59_500,
};
const kinds = (facts: Partial<StationFacts>): string[] =>
  stationBlindness({ ...well, ...facts }).map(({ kind }) => kind);

test('nothing is said while all is heard', () => {
  expect(kinds({})).toEqual([]);
});

describe('the station', () => {
  test('on a broken line is not the station that says nothing', () => {
    expect(kinds({ connected: false })).toEqual(['line broken']);
    expect(kinds({ contact: { kind: 'blind', now, forMilliseconds: 3_500 } })).toEqual(['no word']);
  });

  test('that was never heard is waited for three seconds', () => {
    expect(
      kinds({ connected: false, heardAt: undefined, contact: { kind: 'never heard', forMilliseconds: 3_000 } }),
    ).toEqual([]);
    expect(
      kinds({ connected: false, heardAt: undefined, contact: { kind: 'never heard', forMilliseconds: 3_001 } }),
    ).toEqual(['no word']);
  });

  test('that cannot write says why', () => {
    const view = { ...recording(now), recording: false, notRecordingBecause: 'the disk is full' };
    expect(stationBlindness({ ...well, view })[0]).toMatchObject({
      kind: 'not recording',
      level: 'stop',
      rest: expect.stringMatching(/^The disk is full\. /),
    });
  });
});

describe('clocks', () => {
  test('half a minute apart are let pass, more is said with its direction', () => {
    expect(kinds({ clockLead: 30_000 })).toEqual([]);
    expect(stationBlindness({ ...well, clockLead: -30_001 })[0]!.head).toBe(
      "The clock of this device is 30 s behind the station's.",
    );
  });

  test('a step of the station is spoken of for an hour', () => {
    const stepped = (agoMilliseconds: number) => ({
      view: { ...recording(now), clockStep: { at: (now - agoMilliseconds) as Instant, steppedMilliseconds: 120_000 } },
    });
    expect(stationBlindness({ ...well, ...stepped(0) })[0]!.head).toMatch(
      /^The station's clock was set forward by 2 min at /,
    );
    expect(kinds(stepped(3_600_000))).toEqual(['clock stepped']);
    expect(kinds(stepped(3_600_001))).toEqual([]);
  });
});

describe('a page that was away', () => {
  const away = { why: 'background', forMilliseconds: 240_000, endedAt: 50_000 } as const;

  test('is catching up until the station was heard again, then says so for 20 s', () => {
    expect(stationBlindness({ ...well, away, heardAt: 49_000 })[0]!.rest).toMatch(/catching up/);
    expect(stationBlindness({ ...well, away, monotonic: 70_000 })[0]).toMatchObject({
      head: 'This page was in the background for 4 min.',
      rest: expect.stringMatching(/^It has caught up/),
    });
    expect(kinds({ away, monotonic: 70_001 })).toEqual([]);
  });
});

describe('data', () => {
  const ready = momentOf(girderScript, 55);

  test('younger than three periods is no reason to speak; at three it is old, with its places', () => {
    expect(dataBlindness(ready.live, later(ready.now, 2_999), 60_000)).toEqual([]);
    const old = dataBlindness(ready.live, later(ready.now, 3_000), 60_000);
    expect(old.map(({ kind }) => kind)).toEqual(['old data']);
    expect(old[0]!.head).toBe('Old data: A1, A2, B1, B2, A3 and B3 not heard for 3 s.');
  });

  test('that never came is another thing, said after three seconds of looking', () => {
    const { B3: _, ...newest } = ready.live.newest;
    const live = { ...ready.live, newest };
    expect(dataBlindness(live, ready.now, 2_999)).toEqual([]);
    expect(dataBlindness(live, ready.now, 3_000)).toMatchObject([
      { kind: 'no data', head: 'No data: nothing has ever come from B3.' },
    ]);
  });

  test('is not spoken of while the station is not heard, nor on a closed joint', () => {
    expect(dataBlindness(ready.live, undefined, 60_000)).toEqual([]);
    const closed = { ...ready.live, assessment: { ...ready.live.assessment, phase: 'closed' as const } };
    expect(dataBlindness(closed, later(ready.now, 3_600_000), 60_000)).toEqual([]);
  });
});
