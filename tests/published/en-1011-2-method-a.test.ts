/**
 * EN 1011-2 method A: table C.1, the largest combined thickness that may be welded without preheat, and the bounds of
 * the hydrogen scales; verified on a public copy of BS EN 1011-2:2001 + A1. Letters of the scales from memory.
 */
import { expect, test } from 'vitest';
import { hydrogenScale, withoutPreheat } from '../../server/metallurgy/methods/en-1011-2-method-a.ts';

test.each([
  [20, 25, 50, 40, 80],
  [12, 30, 55, 50, 90],
  [8, 35, 65, 60, 100],
  [4, 50, 100, 100, 100],
  [3, 60, 100, 100, 100],
] as const)('method A, table C.1 at HD %s', (hd, a, b, c, d) => {
  expect(withoutPreheat(0.49, hd, 1)?.millimetres).toBe(a);
  expect(withoutPreheat(0.49, hd, 2)?.millimetres).toBe(b);
  expect(withoutPreheat(0.43, hd, 1)?.millimetres).toBe(c);
  expect(withoutPreheat(0.43, hd, 2)?.millimetres).toBe(d);
});

test('table C.1 is not interpolated: CE goes up to a column, heat input down', () => {
  expect(withoutPreheat(0.44, 12, 1.9)?.millimetres).toBe(30);
  expect(withoutPreheat(0.5, 12, 2)).toBeUndefined();
  expect([16, 15, 10, 5, 3].map(hydrogenScale)).toEqual(['A', 'B', 'C', 'D', 'E']);
});
