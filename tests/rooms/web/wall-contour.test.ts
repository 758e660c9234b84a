import fc from 'fast-check';
import { expect, test } from 'vitest';
import { contourOf, type Grid } from '../../../web/parts/wall/contour.ts';

const axis = (count: number): number[] => Array.from({ length: count }, (_, index) => index);
const gridOf = (f: (x: number, y: number) => number, columns: number, rows: number): Grid => ({
  xs: axis(columns),
  ys: axis(rows),
  value: f,
  isJoined: () => true,
});

test('the line of a sloping plane is where the plane has the level', () => {
  const pieces = contourOf(
    gridOf((x, y) => 3 * x + 2 * y, 12, 8),
    17.5,
  );
  expect(pieces.length).toBeGreaterThan(5);
  for (const [x, y] of pieces.flat()) expect(3 * x + 2 * y).toBeCloseTo(17.5, 9);
});

test('the line around a hill is closed: every end is the end of two pieces', () => {
  const hill = (x: number, y: number): number => 100 - (x - 7.3) ** 2 - (y - 6.1) ** 2;
  const ends = new Map<string, number>();
  for (const [x, y] of contourOf(gridOf(hill, 16, 14), 80).flat()) {
    // A circle of radius root 20; a straight line between crossings of unit meshes misses it by less than a tenth.
    expect(Math.abs(Math.hypot(x - 7.3, y - 6.1) - Math.sqrt(20))).toBeLessThan(0.1);
    const key = `${x.toFixed(6)} ${y.toFixed(6)}`;
    ends.set(key, (ends.get(key) ?? 0) + 1);
  }
  expect([...ends.values()].every((count) => count === 2)).toBe(true);
});

test('a level that is nowhere passed draws nothing; one that is just reached counts as reached', () => {
  expect(
    contourOf(
      gridOf(() => 50, 4, 4),
      60,
    ),
  ).toEqual([]);
  expect(
    contourOf(
      gridOf(() => 60, 4, 4),
      60,
    ),
  ).toEqual([]);
});

test('nothing is drawn across a time without columns', () => {
  const grid = { ...gridOf((x) => x, 6, 3), isJoined: (column: number) => column !== 2 };
  expect(contourOf(grid, 2.5)).toEqual([]);
  expect(contourOf(grid, 3.5)).toHaveLength(2);
});

test('every piece stays inside its mesh, whatever the values', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 16, maxLength: 16 }), (values) => {
      const pieces = contourOf(
        gridOf((x, y) => values[4 * x + y]!, 4, 4),
        0.5,
      );
      for (const [from, to] of pieces) {
        expect(Math.abs(from[0] - to[0])).toBeLessThanOrEqual(1);
        expect(Math.abs(from[1] - to[1])).toBeLessThanOrEqual(1);
      }
    }),
  );
});
