/**
 * The cross-section to scale, with the probes at their places, laid out for a given width in pixels. Pure:
 * the picture on the screen, and the same one while a joint is being entered, are made from it.
 */
import type { Joint } from '../../../server/weld/joint.ts';
import type { Probe } from '../../../server/weld/probe.ts';
import { spread } from '../../chart/spread.ts';
import { type Frame, type Layout, layoutOf, type Vector } from './frames.ts';

export interface Outline {
  readonly name: string;
  readonly points: readonly Vector[];
  /** Where the name and thickness may be written. */
  readonly middle: Vector;
  readonly text: string;
}

export interface Pin {
  readonly probe: string;
  /** On the face of the part. */
  readonly tip: Vector;
  /** Upper left corner of the label. */
  readonly label: Vector;
  readonly leader: readonly Vector[];
}

export interface Plan {
  readonly width: number;
  readonly height: number;
  readonly pixelsPerMillimetre: number;
  readonly outlines: readonly Outline[];
  readonly weld: readonly Vector[];
  readonly heaters: readonly (readonly [Vector, Vector])[];
  readonly pins: readonly Pin[];
  readonly faces: readonly { readonly text: string; readonly at: Vector; readonly anchor: 'start' | 'end' }[];
  readonly axis?: readonly [Vector, Vector];
}

export const label = { width: 116, height: 62, gap: 8 } as const;
const lead = 30;
const edge = 6;
const thicknessMost = 170;
const lengthMost = 330;

type Placed = Probe & { readonly place: NonNullable<Probe['place']> };

export const planOf = (joint: Joint, width: number): Plan => {
  const layout = layoutOf(joint);
  const placed = joint.probes.filter((probe): probe is Placed => probe.place !== undefined);
  return layout.arrangement === 'flat' ? flat(joint, layout, placed, width) : upright(joint, layout, placed, width);
};

/** How far a side has to be drawn, mm: past its farthest probe. */
const reach = (placed: readonly Placed[], { side, thickness }: Frame): number => {
  const far = Math.max(
    0,
    ...placed.filter((probe) => probe.place.side === side).map((probe) => probe.place.distanceMillimetres),
  );
  return Math.max(far * 1.15 + thickness * 0.25, thickness * 1.1, 25);
};

const tipOf = (frame: Frame, { place }: Placed): Vector => {
  const depth = place.face === 'front' ? 0 : frame.thickness;
  const d = place.distanceMillimetres;
  return [
    frame.origin[0] + frame.along[0] * d - frame.out[0] * depth,
    frame.origin[1] + frame.along[1] * d - frame.out[1] * depth,
  ];
};

function flat(joint: Joint, layout: Layout, placed: readonly Placed[], width: number): Plan {
  const { a, b } = layout;
  const lengths = { A: reach(placed, a), B: reach(placed, b) };
  const left = Math.min(end(a, lengths.A)[0], end(b, lengths.B)[0], -layout.behind);
  const right = Math.max(end(a, lengths.A)[0], end(b, lengths.B)[0]);
  const top = Math.min(a.origin[1], b.origin[1]);
  const bottom = Math.max(a.origin[1] + a.thickness, b.origin[1] + b.thickness);
  const scale = Math.min((width - 2 * edge) / (right - left), thicknessMost / (bottom - top));
  const front = placed.filter((probe) => probe.place.face === 'front');
  const back = placed.filter((probe) => probe.place.face === 'back');
  const rows = { front: rowsFor(front.length, width), back: rowsFor(back.length, width) };
  const topY = edge + rows.front * (label.height + label.gap) + (rows.front > 0 ? lead : 14);
  const bottomY = topY + (bottom - top) * scale;
  const middle = width / 2 - ((left + right) / 2) * scale;
  const at = ([x, y]: Vector): Vector => [middle + x * scale, topY + (y - top) * scale];
  const height = bottomY + (rows.back > 0 ? lead + rows.back * (label.height + label.gap) : 14) + edge;
  const frameOf = (probe: Placed): Frame => (probe.place.side === 'A' ? a : b);
  const pins = [
    ...rowOf(
      front,
      front.map((probe) => at(tipOf(frameOf(probe), probe))),
      width,
      rows.front,
      topY - lead - label.height,
      -1,
    ),
    ...rowOf(
      back,
      back.map((probe) => at(tipOf(frameOf(probe), probe))),
      width,
      rows.back,
      bottomY + lead,
      1,
    ),
  ];
  const outlines = layout.single
    ? [single(layout, lengths, at)]
    : [slab(a, lengths.A, at, layout.behind), slab(b, lengths.B, at, 0)];
  return {
    width,
    height,
    pixelsPerMillimetre: scale,
    outlines: layout.behind > 0 || layout.single ? outlines : grooved(layout, outlines, at),
    weld: layout.weld.map(at),
    heaters: heatersOf(joint, [a, b], lengths, at),
    pins,
    faces: [
      { text: 'front face', at: [edge, topY - 7], anchor: 'start' },
      { text: 'back face', at: [edge, bottomY + 16], anchor: 'start' },
    ],
    ...(layout.pipe ? { axis: [[edge, height - 3] as Vector, [width - edge, height - 3] as Vector] as const } : {}),
  };
}

function upright(joint: Joint, layout: Layout, placed: readonly Placed[], width: number): Plan {
  const { a, b } = layout;
  const onA = { front: pick(placed, 'A', 'front'), back: pick(placed, 'A', 'back') };
  const onB = { front: pick(placed, 'B', 'front'), back: pick(placed, 'B', 'back') };
  const lengths = { A: reach(placed, a), B: reach(placed, b) };
  const column = (count: number): number => (count > 0 ? label.width + lead : 0);
  const leftMillimetres = Math.max(b.thickness + layout.behind, b.thickness);
  const leftColumn = Math.max(0, column(onB.back.length));
  const room = width - 2 * edge - leftColumn;
  const scale = Math.min(
    room / (leftMillimetres + a.origin[0] + lengths.A),
    lengthMost / (lengths.B + a.thickness),
    thicknessMost / Math.max(a.thickness, b.thickness),
  );
  const rows = { front: onA.front.length > 0 ? 1 : 0, back: rowsFor(onA.back.length, width) };
  const stack = (count: number): number => count * (label.height + label.gap);
  const above =
    Math.max(
      lengths.B * scale,
      stack(onB.front.length) + (rows.front > 0 ? stack(1) + lead : 0),
      stack(onB.back.length),
    ) + 10;
  const topY = edge + above;
  const bottomY = topY + a.thickness * scale;
  const originX = edge + leftColumn + leftMillimetres * scale;
  const at = ([x, y]: Vector): Vector => [originX + x * scale, topY + y * scale];
  const below = layout.cross
    ? Math.max(60, rows.back * (label.height + label.gap) + lead)
    : rows.back > 0
      ? lead + rows.back * (label.height + label.gap)
      : 18;
  const height = bottomY + below + edge;
  const tips = (frame: Frame, probes: readonly Placed[]): Vector[] => probes.map((probe) => at(tipOf(frame, probe)));
  const ceiling = topY - (rows.front > 0 ? stack(1) + lead : 0) - label.height;
  const rightX = originX + lead + 12;
  const pins = [
    ...rowOf(onA.front, tips(a, onA.front), width, rows.front, topY - lead - label.height, -1, originX + 12),
    ...rowOf(onA.back, tips(a, onA.back), width, rows.back, bottomY + lead, 1),
    ...columnOf(onB.front, tips(b, onB.front), rightX, edge, ceiling, 1),
    ...columnOf(
      onB.back,
      tips(b, onB.back),
      originX - b.thickness * scale - lead - label.width,
      edge,
      topY - label.height,
      -1,
    ),
  ];
  const tall = above / scale - 10 / scale;
  const base = slab(a, lengths.A, at, layout.behind + b.thickness + a.origin[0]);
  const stem = slab(b, Math.max(lengths.B, tall) + b.origin[1], at, -b.origin[1]);
  const foot: Outline[] = layout.cross
    ? [
        {
          name: '',
          text: '',
          middle: [0, 0],
          points: (
            [
              [-b.thickness, a.thickness],
              [0, a.thickness],
              [0, a.thickness + 55 / scale],
              [-b.thickness, a.thickness + 55 / scale],
            ] as Vector[]
          ).map(at),
        },
      ]
    : [];
  return {
    width,
    height,
    pixelsPerMillimetre: scale,
    outlines: [base, stem, ...foot],
    weld: layout.weld.map(at),
    heaters: heatersOf(joint, [a, b], lengths, at),
    pins,
    faces: [
      { text: 'front face', at: [width - edge, topY - 7], anchor: 'end' },
      { text: 'back face', at: [width - edge, bottomY + 16], anchor: 'end' },
    ],
  };
}

const pick = (placed: readonly Placed[], side: 'A' | 'B', face: 'front' | 'back'): Placed[] =>
  placed.filter((probe) => probe.place.side === side && probe.place.face === face);

const end = (frame: Frame, length: number): Vector => [
  frame.origin[0] + frame.along[0] * length,
  frame.origin[1] + frame.along[1] * length,
];

const rowsFor = (count: number, width: number): number =>
  Math.ceil((count * (label.width + label.gap)) / Math.max(1, width - 2 * edge));

/** Labels in one or more rows; rows farther out take every other label, so that leaders do not cross. */
function rowOf(
  probes: readonly Placed[],
  tips: readonly Vector[],
  width: number,
  rows: number,
  y: number,
  direction: -1 | 1,
  low = edge,
): Pin[] {
  const half = label.width / 2;
  const order = tips.map((_, index) => index).sort((a, b) => tips[a]![0] - tips[b]![0]);
  const rowOfIndex = new Map(order.map((index, rank) => [index, rank % Math.max(1, rows)]));
  const centre = new Map<number, number>();
  for (let row = 0; row < rows; row += 1) {
    const members = order.filter((index) => rowOfIndex.get(index) === row);
    const xs = spread(
      members.map((index) => tips[index]![0]),
      label.width + label.gap,
      low + half,
      width - edge - half,
    );
    members.forEach((index, position) => {
      centre.set(index, xs[position]!);
    });
  }
  return probes.map(({ id }, index): Pin => {
    const row = rowOfIndex.get(index)!;
    const x = centre.get(index)!;
    const tip = tips[index]!;
    const labelY = y + direction * row * (label.height + label.gap);
    const foot = direction < 0 ? labelY + label.height : labelY;
    return { probe: id, tip, label: [x - half, labelY], leader: [tip, [tip[0], tip[1] + direction * 12], [x, foot]] };
  });
}

function columnOf(
  probes: readonly Placed[],
  tips: readonly Vector[],
  x: number,
  low: number,
  high: number,
  direction: -1 | 1,
): Pin[] {
  const ys = spread(
    tips.map((tip) => tip[1] - label.height / 2),
    label.height + label.gap,
    low,
    Math.max(low, high),
  );
  return probes.map(({ id }, index): Pin => {
    const tip = tips[index]!;
    const y = ys[index]!;
    const side: Vector = [direction > 0 ? x : x + label.width, y + label.height / 2];
    return { probe: id, tip, label: [x, y], leader: [tip, [tip[0] + direction * 12, tip[1]], side] };
  });
}

/** A rectangle along the frame; `back` lengthens it beyond the groove edge. */
function slab(frame: Frame, length: number, at: (point: Vector) => Vector, back: number): Outline {
  const { origin, along, out, thickness } = frame;
  const corner = (d: number, depth: number): Vector =>
    at([origin[0] + along[0] * d - out[0] * depth, origin[1] + along[1] * d - out[1] * depth]);
  return {
    name: frame.part,
    points: [corner(-back, 0), corner(length, 0), corner(length, thickness), corner(-back, thickness)],
    middle: corner(length * 0.55, thickness / 2),
    text: `${frame.side}: ${frame.part}, ${frame.thickness} mm`,
  };
}

/** The two edges of a V groove instead of upright ends. */
const grooved = (layout: Layout, [a, b]: readonly Outline[], at: (point: Vector) => Vector): Outline[] => {
  const t = Math.min(layout.a.thickness, layout.b.thickness);
  const replace = (outline: Outline, frame: Frame, sign: -1 | 1): Outline => {
    const far = outline.points.slice(1, 3);
    const root: Vector = at([sign * t * 0.05, t]);
    const foot: Vector = at([sign * t * 0.05, frame.thickness]);
    return { ...outline, points: [outline.points[0]!, ...far, foot, root] };
  };
  return [replace(a!, layout.a, -1), replace(b!, layout.b, 1)];
};

const single = ({ a, b }: Layout, lengths: { A: number; B: number }, at: (point: Vector) => Vector): Outline => {
  const left = a.origin[0] - lengths.A;
  const right = b.origin[0] + lengths.B;
  return {
    name: a.part,
    points: (
      [
        [left, 0],
        [right, 0],
        [right, a.thickness],
        [left, a.thickness],
      ] as Vector[]
    ).map(at),
    middle: at([(left + a.origin[0]) / 2, a.thickness * 0.7]),
    text: `${a.part}, ${a.thickness} mm`,
  };
};

/** Strips along the heated face, px apart from it, from beside the groove to the end of what is drawn. */
const heatersOf = (
  joint: Joint,
  frames: readonly Frame[],
  lengths: { A: number; B: number },
  at: (point: Vector) => Vector,
): (readonly [Vector, Vector])[] => {
  const heated = joint.heating.face === 'both' ? (['front', 'back'] as const) : [joint.heating.face];
  return frames.flatMap((frame) =>
    heated.map((face): readonly [Vector, Vector] => {
      const depth = face === 'front' ? 0 : frame.thickness;
      const sign = face === 'front' ? 1 : -1;
      const point = (d: number): Vector => {
        const [x, y] = at([
          frame.origin[0] + frame.along[0] * d - frame.out[0] * depth,
          frame.origin[1] + frame.along[1] * d - frame.out[1] * depth,
        ]);
        return [x + frame.out[0] * sign * 6, y + frame.out[1] * sign * 6];
      };
      const length = lengths[frame.side];
      return [point(length * 0.12), point(length * 0.97)];
    }),
  );
};
