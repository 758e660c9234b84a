/** Both sides in one line: butt joints, laps, repairs. Labels of the front face above, of the back face below. */
import type { Frame, Layout, Vector } from './frames.ts';
import { endOf, grooved, heatersOf, type Outline, onePiece, reach, slab, type ToPixels } from './outline.ts';
import { edge, label, lead, type Placed, rowOf, rowsFor, type Tips, tipOf } from './pins.ts';
import type { Plan, Sheet } from './shape.ts';

const thicknessMost = 170;

export const flat = ({ joint, layout, placed, width, labelWidth }: Sheet): Plan => {
  const { a, b } = layout;
  const lengths = { A: reach(placed, a), B: reach(placed, b) };
  const left = Math.min(endOf(a, lengths.A)[0], endOf(b, lengths.B)[0], -layout.behind);
  const right = Math.max(endOf(a, lengths.A)[0], endOf(b, lengths.B)[0]);
  const top = Math.min(a.origin[1], b.origin[1]);
  const bottom = Math.max(a.origin[1] + a.thickness, b.origin[1] + b.thickness);
  const scale = Math.min((width - 2 * edge) / (right - left), thicknessMost / (bottom - top));

  const front = placed.filter(({ place }) => place.face === 'front');
  const back = placed.filter(({ place }) => place.face === 'back');
  const room = { low: edge, high: width - edge };
  const rows = {
    front: rowsFor(front.length, room.low, room.high, labelWidth),
    back: rowsFor(back.length, room.low, room.high, labelWidth),
  };
  const stack = (count: number): number => (count === 0 ? 14 : lead + count * (label.height + label.gap));
  const topY = edge + stack(rows.front);
  const bottomY = topY + (bottom - top) * scale;
  const height = bottomY + stack(rows.back) + edge + (layout.pipe ? 14 : 0);
  const middle = width / 2 - ((left + right) / 2) * scale;
  const at: ToPixels = ([x, y]) => [middle + x * scale, topY + (y - top) * scale];

  const frameOf = (probe: Placed): Frame => (probe.place.side === 'A' ? a : b);
  const tips = (probes: readonly Placed[]): Tips => ({
    probes,
    tips: probes.map((probe) => at(tipOf(frameOf(probe), probe))),
  });
  const leftFace = layout.behind > 0 ? b : a;
  const leftX = at([left, 0])[0] + 8;
  return {
    width,
    height,
    labelWidth,
    pixelsPerMillimetre: scale,
    outlines: outlinesOf(layout, lengths, at),
    weld: layout.weld.map(at),
    heaters: heatersOf(joint, [a, b], lengths, at),
    pins: [
      ...rowOf(tips(front), { ...room, labelWidth, rows: rows.front, y: topY - lead - label.height, direction: -1 }),
      ...rowOf(tips(back), { ...room, labelWidth, rows: rows.back, y: bottomY + lead, direction: 1 }),
    ],
    faces: [
      { text: 'front face', at: [leftX, at([0, leftFace.origin[1]])[1] + 17], anchor: 'start' },
      { text: 'back face', at: [leftX, at([0, a.origin[1] + a.thickness])[1] - 8], anchor: 'start' },
    ],
    ...(layout.pipe ? { axis: centreLine(width, height) } : {}),
  };
};

const outlinesOf = (layout: Layout, lengths: { A: number; B: number }, at: ToPixels): Outline[] => {
  if (layout.single) return [onePiece(layout, lengths, at)];
  if (layout.behind === 0) return grooved(layout, lengths, at);
  return [slab(layout.a, lengths.A, at, layout.behind + layout.a.origin[0]), slab(layout.b, lengths.B, at, 0)];
};

const centreLine = (width: number, height: number): readonly [Vector, Vector] => [
  [edge, height - 5],
  [width - edge, height - 5],
];
