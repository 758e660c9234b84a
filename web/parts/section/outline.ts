/** Outlines of the parts and of what heats them. From millimetres through `at` to pixels. */
import type { Joint } from '../../../server/weld/joint.ts';
import type { Frame, Layout, Vector } from './frames.ts';
import type { Placed } from './pins.ts';

export interface Outline {
  readonly points: readonly Vector[];
  readonly text: string;
  /** Where the name and thickness are written. */
  readonly middle: Vector;
  /** Written upwards, in an upright part. */
  readonly upright?: boolean;
}

export type ToPixels = (point: Vector) => Vector;

/** How far a side has to be drawn from the edge of the groove, mm: past its farthest probe. */
export const reach = (placed: readonly Placed[], { side, thickness }: Frame): number => {
  const distances = placed.filter(({ place }) => place.side === side).map(({ place }) => place.distanceMillimetres);
  return Math.max(Math.max(0, ...distances) * 1.15 + thickness * 0.25, thickness * 1.1, 25);
};

export const endOf = ({ origin, along }: Frame, length: number): Vector => [
  origin[0] + along[0] * length,
  origin[1] + along[1] * length,
];

/** A slab along the frame; `behind` lengthens it beyond the edge of the groove. */
export const slab = (frame: Frame, length: number, at: ToPixels, behind: number): Outline => {
  const { origin, along, out, thickness } = frame;
  const corner = (d: number, depth: number): Vector =>
    at([origin[0] + along[0] * d - out[0] * depth, origin[1] + along[1] * d - out[1] * depth]);
  const points = [corner(-behind, 0), corner(length, 0), corner(length, thickness), corner(-behind, thickness)];
  const span = Math.hypot(points[1]![0] - points[0]![0], points[1]![1] - points[0]![1]);
  return { points, middle: corner((length - behind) / 2, thickness / 2), text: nameOf(frame, span) };
};

/** As much of the name as the part has room for. About 8 px a letter at the size it is written. */
const nameOf = ({ side, part, thickness }: Frame, room: number): string => {
  const long = `${side}: ${part}, ${thickness} mm`;
  return long.length * 8 < room ? long : `${side}, ${thickness} mm`;
};

/** The two slanted edges of a V groove instead of upright ends. */
export const grooved = (layout: Layout, lengths: Lengths, at: ToPixels): Outline[] => {
  const t = Math.min(layout.a.thickness, layout.b.thickness);
  return ([layout.a, layout.b] as const).map((frame): Outline => {
    const sign = frame.along[0];
    const whole = slab(frame, lengths[frame.side], at, 0);
    const [edge, far, foot] = whole.points;
    const root: Vector = at([sign * t * 0.05, t]);
    const bottom: Vector = at([sign * t * 0.05, frame.thickness]);
    return { ...whole, points: [edge!, far!, foot!, bottom, root] };
  });
};

export interface Lengths {
  readonly A: number;
  readonly B: number;
}

/** One piece with a hollow in its front face. */
export const onePiece = ({ a, b }: Layout, lengths: Lengths, at: ToPixels): Outline => {
  const left = endOf(a, lengths.A)[0];
  const right = endOf(b, lengths.B)[0];
  const corners: readonly Vector[] = [
    [left, 0],
    [right, 0],
    [right, a.thickness],
    [left, a.thickness],
  ];
  return {
    points: corners.map(at),
    middle: at([(left + right) / 2, a.thickness * 0.72]),
    text: `${a.part}, ${a.thickness} mm`,
  };
};

/** Strips a few pixels off the heated face, from beside the groove to the end of what is drawn. */
export const heatersOf = (
  { heating }: Joint,
  frames: readonly Frame[],
  lengths: Lengths,
  at: ToPixels,
): (readonly [Vector, Vector])[] => {
  const heated = heating.face === 'both' ? (['front', 'back'] as const) : [heating.face];
  return frames.flatMap(({ side, origin, along, out, thickness }) =>
    heated.map((face): readonly [Vector, Vector] => {
      const depth = face === 'front' ? 0 : thickness;
      const off = face === 'front' ? 6 : -6;
      const point = (d: number): Vector => {
        const [x, y] = at([origin[0] + along[0] * d - out[0] * depth, origin[1] + along[1] * d - out[1] * depth]);
        return [x + out[0] * off, y + out[1] * off];
      };
      return [point(lengths[side] * 0.12), point(lengths[side] * 0.97)];
    }),
  );
};
