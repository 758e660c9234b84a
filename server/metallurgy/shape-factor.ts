/**
 * How the shape of a weld changes its cooling: factors on the formulas of t8/5 (EN 1011-2:2001 annex D, from
 * memory). For the fillet on a T-joint a range is given for two-dimensional flow; both ends are carried.
 */
import type { Joint } from '../weld/joint.ts';
import type { Span } from './span.ts';

export type WeldShape = NonNullable<Joint['weldShape']>;

export interface ShapeFactors {
  /** F2, two-dimensional heat flow. */
  readonly two: Span;
  /** F3, three-dimensional heat flow. */
  readonly three: number;
}

export const shapeFactors: Readonly<Record<WeldShape, ShapeFactors>> = {
  'run on plate': { two: { lowest: 1, highest: 1 }, three: 1 },
  'between runs of a butt weld': { two: { lowest: 0.9, highest: 0.9 }, three: 0.9 },
  'fillet on a corner joint': { two: { lowest: 0.9, highest: 0.9 }, three: 0.67 },
  'fillet on a T-joint': { two: { lowest: 0.45, highest: 0.67 }, three: 0.67 },
};
