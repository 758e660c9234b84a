/**
 * Where a value that is known at the crossings of a grid passes a level: straight pieces through the meshes, each end
 * found on its edge by a straight line between the two corners (marching squares).
 */

export interface Grid {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly value: (column: number, row: number) => number;
  /** Whether anything is known between this column and the next. */
  readonly isJoined: (column: number) => boolean;
}

export type Point = readonly [x: number, y: number];
export type Piece = readonly [from: Point, to: Point];

/** A corner that lies on the level counts as above it, as a limit that is just reached counts as met. */
export const contourOf = ({ xs, ys, value, isJoined }: Grid, level: number): Piece[] => {
  const pieces: Piece[] = [];
  for (let column = 0; column + 1 < xs.length; column += 1) {
    if (!isJoined(column)) continue;
    for (let row = 0; row + 1 < ys.length; row += 1) {
      // Corners around the mesh: top left, top right, bottom right, bottom left.
      const corners: readonly (readonly [column: number, row: number])[] = [
        [column, row],
        [column + 1, row],
        [column + 1, row + 1],
        [column, row + 1],
      ];
      const values = corners.map((corner) => value(...corner));
      const crossings = corners.flatMap(([c, r], index): Point[] => {
        const next = (index + 1) % 4;
        const [here, there] = [values[index]!, values[next]!];
        if (here >= level === there >= level) return [];
        const part = (level - here) / (there - here);
        const [nextColumn, nextRow] = corners[next]!;
        return [[between(xs[c]!, xs[nextColumn]!, part), between(ys[r]!, ys[nextRow]!, part)]];
      });
      if (crossings.length === 2) pieces.push([crossings[0]!, crossings[1]!]);
      if (crossings.length === 4) {
        // A saddle: the middle says which corners belong together.
        const middle = values.reduce((sum, each) => sum + each, 0) / 4;
        const [a, b, c, d] = crossings as [Point, Point, Point, Point];
        if (middle >= level === values[0]! >= level) pieces.push([a, b], [c, d]);
        else pieces.push([a, d], [b, c]);
      }
    }
  }
  return pieces;
};

const between = (from: number, to: number, part: number): number => from + part * (to - from);
