import { expect, test } from 'vitest';
import type { Instant } from '../../../server/measure/quantity.ts';
import { contactNow, serverTime } from '../../../web/feed/contact.ts';

const heard = { serverNow: 1_000_000 as Instant, monotonic: 50 };

test('server time goes on with this device, not with its wall clock', () => {
  expect(serverTime(heard, 50)).toBe(1_000_000);
  expect(serverTime(heard, 2_550)).toBe(1_002_500);
});

test('a monotonic clock that seems to step back does not make the station speak from the future', () => {
  expect(serverTime(heard, 20)).toBe(1_000_000);
});

test('live up to three seconds after the last word, blind after', () => {
  expect(contactNow(heard, 0, 3_050)).toEqual({ kind: 'live', now: 1_003_000 });
  expect(contactNow(heard, 0, 3_051)).toEqual({ kind: 'blind', now: 1_003_001, forMilliseconds: 3_001 });
});

test('never heard is its own state, counted from the opening of the page', () => {
  expect(contactNow(undefined, 100, 4_100)).toEqual({ kind: 'never heard', forMilliseconds: 4_000 });
});
