/**
 * The section across the weld, to scale: thickness and distances from the groove in millimetres, where to
 * measure, the heated face as far as the chosen code asks for, every placed probe. Pure.
 */
import type { Joint } from '../weld/joint.ts';
import { type Frame, type Layout, layoutOf } from './frames.ts';
import { heatedDistanceOf, measuringFaces, measuringOf } from './rules.ts';
import {
  type Liberty,
  type Mark,
  type Placed,
  placedOf,
  type Steel,
  type Stretch,
  type Vector,
  type View,
  type Word,
} from './view.ts';

export const sectionOf = (joint: Joint): View => {
  const layout = layoutOf(joint);
  const reaches = reachesOf(joint, layout);
  const { a, b } = layout;
  const marks = placedOf(joint.probes).map((probe) => markOf(probe.place.side === 'A' ? a : b, reaches, probe));
  return {
    arrangement: layout.arrangement,
    steel: steelOf(layout, reaches),
    weld: layout.weld,
    zoneLines: [a, b].flatMap((frame) => {
      const { distanceMillimetres } = measuringOf(frame.thickness);
      return measuringFaces(joint.heating).map((face) => stretchOf(frame, face, 0, distanceMillimetres));
    }),
    zoneAreas: [],
    heatedLines: heatedOf(joint, [a, b], reaches),
    heatedAreas: [],
    marks,
    axes: axesOf(joint, layout, reaches),
    words: faceWords(layout, reaches),
    liberties: libertiesOf(joint, layout, marks),
  };
};

export interface Reaches {
  readonly A: number;
  readonly B: number;
}

/** How far each side is drawn from the edge of the groove, mm: past its probes and what is to be heated. */
export const reachesOf = (joint: Joint, { a, b }: Pick<Layout, 'a' | 'b'>): Reaches => {
  const heated = heatedDistanceOf(joint)?.distanceMillimetres ?? 0;
  const reach = ({ side, thickness }: Frame): number => {
    const asked = Math.max(measuringOf(thickness).distanceMillimetres, heated);
    const distances = placedOf(joint.probes).filter(({ place }) => place.side === side);
    const farthest = Math.max(0, ...distances.map(({ place }) => place.distanceMillimetres));
    // Far beyond the thickness a drawing to scale would show a line instead of a part.
    const drawn = Math.min(farthest, Math.max(7 * thickness, 2 * asked));
    return Math.max(drawn * 1.15 + thickness * 0.25, asked * 1.2, thickness * 1.1, 25);
  };
  return { A: reach(a), B: reach(b) };
};

/** A point of the side's frame: so far from the groove edge, so deep under the front face. */
const pointOf = ({ origin, along, out }: Frame, distance: number, depth: number): Vector => [
  origin[0] + along[0] * distance - out[0] * depth,
  origin[1] + along[1] * distance - out[1] * depth,
];

const markOf = (frame: Frame, reaches: Reaches, probe: Placed): Mark => {
  const { face, distanceMillimetres } = probe.place;
  const beyond = distanceMillimetres > reaches[frame.side];
  const out: Vector = face === 'front' ? frame.out : [-frame.out[0], -frame.out[1]];
  const at = pointOf(frame, Math.min(distanceMillimetres, reaches[frame.side]), face === 'front' ? 0 : frame.thickness);
  return { probe, at, out, hidden: false, beyond };
};

const stretchOf = (frame: Frame, face: 'front' | 'back', from: number, to: number): Stretch => {
  const depth = face === 'front' ? 0 : frame.thickness;
  const out: Vector = face === 'front' ? frame.out : [-frame.out[0], -frame.out[1]];
  return { from: pointOf(frame, from, depth), to: pointOf(frame, to, depth), out };
};

/** From beside the groove as far as the chosen code asks; without one, as far as is drawn. */
const heatedOf = (joint: Joint, frames: readonly Frame[], reaches: Reaches): Stretch[] => {
  const heated = joint.heating.face === 'both' ? (['front', 'back'] as const) : [joint.heating.face];
  const asked = heatedDistanceOf(joint)?.distanceMillimetres;
  return frames.flatMap((frame) =>
    heated.map((face) =>
      stretchOf(frame, face, Math.min(3, reaches[frame.side] * 0.1), asked ?? reaches[frame.side] * 0.97),
    ),
  );
};

const steelOf = (layout: Layout, reaches: Reaches): Steel[] => {
  const { a, b, behind, below, single, arrangement } = layout;
  if (single) return [onePiece(layout, reaches)];
  if (arrangement === 'upright') {
    const through = below > a.thickness;
    const lower: Steel[] = through
      ? [{ points: box([-b.thickness, a.thickness], [0, below]), middle: [0, 0], room: 0 }]
      : [];
    const setIn = below === a.thickness;
    return [
      slab(a, reaches.A, setIn ? a.origin[0] : behind + b.thickness + a.origin[0]),
      { ...slab(b, reaches.B, -b.origin[1] + (setIn ? below : 0)), upright: true },
      ...lower,
    ];
  }
  if (behind > 0) return [slab(a, reaches.A, behind + a.origin[0]), slab(b, reaches.B, 0)];
  return [a, b].map((frame) => grooved(layout, frame, reaches[frame.side]));
};

/** A slab along the frame; `behind` lengthens it beyond the edge of the groove. */
const slab = (frame: Frame, reach: number, behind: number): Steel => {
  const { side, part: id, thickness } = frame;
  const corner = (distance: number, depth: number): Vector => pointOf(frame, distance, depth);
  return {
    points: [corner(-behind, 0), corner(reach, 0), corner(reach, thickness), corner(-behind, thickness)],
    part: { side, id, thicknessMillimetres: thickness },
    middle: corner((reach - behind) / 2, thickness / 2),
    room: reach + behind,
  };
};

/** The slanted edge of a V groove instead of an upright end. */
const grooved = ({ a, b }: Layout, frame: Frame, reach: number): Steel => {
  const t = Math.min(a.thickness, b.thickness);
  const foot = frame.along[0] * t * 0.05;
  const whole = slab(frame, reach, 0);
  const [edge, far, low] = whole.points;
  return { ...whole, points: [edge!, far!, low!, [foot, frame.thickness], [foot, t]] };
};

/** One piece; the weld lies in it or on it. */
const onePiece = ({ a, b, weld }: Layout, reaches: Reaches): Steel => {
  const left = a.origin[0] - reaches.A;
  const right = b.origin[0] + reaches.B;
  const deepest = Math.max(0, ...weld.flat().map(([, y]) => y));
  return {
    points: box([left, 0], [right, a.thickness]),
    part: { id: a.part, thicknessMillimetres: a.thickness },
    middle: [(left + right) / 2, (deepest + a.thickness) / 2],
    room: right - left,
  };
};

const box = ([left, top]: Vector, [right, bottom]: Vector): Vector[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
];

/** Centre line of a pipe below its wall, of a bar within it, of a branch beside its wall. */
const axesOf = (joint: Joint, { a, b, single }: Layout, reaches: Reaches): (readonly [Vector, Vector])[] => {
  const ends = [a.origin[0] + a.along[0] * reaches.A, b.origin[0] + b.along[0] * reaches.B];
  const part = joint.parts.find(({ id }) => id === a.part);
  const along = (y: number): readonly [Vector, Vector] => [
    [Math.min(...ends) - 5, y],
    [Math.max(...ends) + 5, y],
  ];
  if (single && part?.form === 'bar') return [along(a.thickness / 2)];
  if (joint.jointType === 'pipe butt' || (single && part?.form === 'tube'))
    return [along(Math.max(a.thickness, b.thickness) * 1.35)];
  if (joint.jointType !== 'nozzle or branch') return [];
  const x = -b.thickness * 1.6;
  return [
    [
      [x, -reaches.B],
      [x, a.thickness * 1.2],
    ],
  ];
};

/** The names of the faces, at the end of side A. */
const faceWords = ({ a, arrangement }: Layout, reaches: Reaches): Word[] =>
  (['front', 'back'] as const).map((face) => ({
    text: `${face} face`,
    at: pointOf(a, reaches.A * 0.98, face === 'front' ? 0 : a.thickness),
    anchor: arrangement === 'upright' || a.along[0] > 0 ? 'end' : 'start',
    toward: face === 'front' ? [0, 1] : [0, -1],
  }));

const libertiesOf = (joint: Joint, { a, b }: Layout, marks: readonly Mark[]): Liberty[] => {
  const beyond = marks.filter((mark) => mark.beyond).map(({ probe }) => probe.id);
  const others = joint.parts.filter(({ id }) => id !== a.part && id !== b.part).map(({ id }) => id);
  return [
    { kind: 'groove schematic' },
    ...(beyond.length === 0 ? [] : [{ kind: 'beyond', probes: beyond } as const]),
    ...(others.length === 0 ? [] : [{ kind: 'not drawn', parts: others } as const]),
  ];
};
