/** Gaps between readings, late ones and very many. */
import { expect, test } from 'vitest';
import { Coverage } from '../../../server/ledger/coverage.ts';
import { limits } from '../../../server/measure/limits.ts';

const covered = (times: readonly number[], reach = 3): ReturnType<Coverage['gaps']> => {
  const coverage = new Coverage();
  for (const time of times) coverage.add(time, reach);
  return coverage.gaps();
};

test('steps up to the reach are no gap, a longer one is', () => {
  expect(covered([1, 2, 5, 8])).toEqual({ count: 0, totalMilliseconds: 0, listed: [] });
  expect(covered([1, 2, 6, 7])).toEqual({ count: 1, totalMilliseconds: 4, listed: [{ from: 2, to: 6 }] });
});

test('late readings close the gap they belong to, or divide it', () => {
  expect(covered([1, 2, 10, 11, 4, 7]).count).toBe(0);
  expect(covered([1, 2, 20, 10]).listed).toEqual([
    { from: 2, to: 10 },
    { from: 10, to: 20 },
  ]);
  expect(covered([10, 1]).listed).toEqual([{ from: 1, to: 10 }]);
  expect(covered([10, 10, 10]).count).toBe(0);
});

test('of very many gaps the oldest are counted only', () => {
  const gaps = covered(Array.from({ length: limits.gapsListedMaximum + 6 }, (_, index) => index * 10));
  expect(gaps.listed).toHaveLength(limits.gapsListedMaximum);
  expect(gaps.count).toBe(limits.gapsListedMaximum + 5);
  expect(gaps.totalMilliseconds).toBe((limits.gapsListedMaximum + 5) * 10);
  expect(gaps.listed[0]).toEqual({ from: 50, to: 60 });
});
