import { expect, test } from 'vitest';
import { drivenText, noInterlock, notFollowed } from '../../../server/wording/signal.ts';

test('what a board is told is said with its reason', () => {
  expect(drivenText({ lamp: 'slow', horn: 'off', permission: 'withheld', why: 'waiting' })).toBe(
    'lamp flashing slowly, horn off, permission withheld: an open joint on it is not ready',
  );
});

test('a board that refuses or is silent is named with what it means, one that follows is not', () => {
  expect(notFollowed([{ output: 'lamp', outcome: 'done' }])).toEqual([]);
  expect(notFollowed([{ output: 'horn', outcome: 'refused' }])).toEqual([
    'The board has no horn, or refuses it: nobody is told that way.',
  ]);
  expect(notFollowed([{ output: 'permission', outcome: 'silent' }])[0]).toMatch(
    /does not answer for its permission relay/,
  );
});

test('it is said plainly that this is no safety interlock and starts no heat', () => {
  expect(noInterlock).toMatch(/no safety interlock/);
  expect(noInterlock).toMatch(/starts no heat/);
});
