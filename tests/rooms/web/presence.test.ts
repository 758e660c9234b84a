/** Away and back, told from the ticks of the page's own clock; bounds of web/feed/bounds.ts. */
import { expect, test } from 'vitest';
import { type Presence, presenceAfter, presenceAt } from '../../../web/feed/presence.ts';

const after = (from: Presence, ...ticks: readonly (readonly [now: number, hidden: boolean])[]): Presence =>
  ticks.reduce((presence, [now, hidden]) => presenceAfter(presence, now, hidden), from);

test('a page that ticks and is seen was nowhere', () => {
  expect(after(presenceAt(0, false), [250, false], [3_249, false]).away).toBeUndefined();
});

test('a glance aside is not told, five seconds in the background are', () => {
  expect(after(presenceAt(0, false), [1_000, true], [3_000, true], [5_999, false]).away).toBeUndefined();
  const back = after(presenceAt(0, false), [1_000, true], [3_000, true], [6_000, false]);
  expect(back.away).toEqual({ why: 'background', forMilliseconds: 5_000, endedAt: 6_000 });
  expect(after(back, [6_250, false]).away, 'and it is kept for who shows it').toBe(back.away);
});

test('a clock that did not run while the page was in sight means that it stood still', () => {
  expect(after(presenceAt(0, false), [3_000, false]).away).toMatchObject({
    why: 'stood still',
    forMilliseconds: 3_000,
  });
});

test('ticks that come seldom in the background are the background, as is a page that was opened there', () => {
  expect(after(presenceAt(0, true), [60_000, true], [120_000, false]).away).toEqual({
    why: 'background',
    forMilliseconds: 120_000,
    endedAt: 120_000,
  });
});
