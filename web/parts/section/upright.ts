/**
 * Side B stands on side A: T, cruciform, corner, nozzle or branch. Labels of the upright part stand beside
 * it, those of the part below lie over and under it; the two never share a place.
 */
import type { Frame, Vector } from './frames.ts';
import { heatersOf, type Outline, reach, slab, type ToPixels } from './outline.ts';
import { columnOf, edge, label, lead, type Placed, rowOf, rowsFor, type Tips, tipOf } from './pins.ts';
import type { Plan, Sheet } from './shape.ts';

const lengthMost = 320;
const thicknessMost = 130;
const narrowBelow = 520;
/** The stub below a cruciform's flange, px. */
const stub = 60;

export const upright = ({ joint, layout, placed, width, labelWidth }: Sheet): Plan => {
  const { a, b } = layout;
  const on = (side: 'A' | 'B', face: 'front' | 'back'): Placed[] =>
    placed.filter(({ place }) => place.side === side && place.face === face);
  const [aFront, aBack] = [on('A', 'front'), on('A', 'back')];
  // A narrow sheet has room for one column only: what sits on the back of the upright is led across it.
  const narrow = width < narrowBelow;
  const bFront = narrow ? placed.filter(({ place }) => place.side === 'B') : on('B', 'front');
  const bBack = narrow ? [] : on('B', 'back');
  const lengths = { A: reach(placed, a), B: reach(placed, b) };
  const legB = -b.origin[1];
  const behind = b.thickness + layout.behind;

  const leftColumn = bBack.length > 0 ? labelWidth + lead : 0;
  const scale = Math.min(
    (width - 2 * edge - leftColumn) / (behind + a.origin[0] + lengths.A),
    (width - 2 * edge - leftColumn - (bFront.length > 0 ? lead + 12 + labelWidth : 0)) / behind,
    lengthMost / (lengths.B + legB),
    thicknessMost / Math.max(a.thickness, b.thickness),
  );
  const originX = edge + leftColumn + behind * scale;
  const rightOf = originX + 14;
  const rows = {
    front: rowsFor(aFront.length, rightOf, width - edge, labelWidth),
    back: rowsFor(aBack.length, edge, width - edge, labelWidth),
  };
  const stack = (count: number): number => count * (label.height + label.gap);
  const overFlange = rows.front === 0 ? 0 : lead + stack(rows.front);
  const above = Math.max((lengths.B + legB) * scale, stack(bFront.length) + overFlange, stack(bBack.length)) + 10;
  const topY = edge + above;
  const bottomY = topY + a.thickness * scale;
  const below = Math.max(layout.cross ? stub : 8, rows.back === 0 ? 0 : lead + stack(rows.back));
  const height = bottomY + below + edge;
  const at: ToPixels = ([x, y]) => [originX + x * scale, topY + y * scale];
  const tips = (frame: Frame, probes: readonly Placed[]): Tips => ({
    probes,
    tips: probes.map((probe) => at(tipOf(frame, probe))),
  });

  const stem = slab(b, above / scale - legB, at, legB);
  const foot: readonly Vector[] = [
    [-b.thickness, a.thickness],
    [0, a.thickness],
    [0, a.thickness + stub / scale],
    [-b.thickness, a.thickness + stub / scale],
  ];
  const crossing: Outline[] = layout.cross ? [{ text: '', middle: [0, 0], points: foot.map(at) }] : [];
  const faceX = at([a.origin[0] + lengths.A, 0])[0] - 8;
  return {
    width,
    height,
    labelWidth,
    pixelsPerMillimetre: scale,
    outlines: [slab(a, lengths.A, at, behind + a.origin[0]), { ...stem, upright: true }, ...crossing],
    weld: layout.weld.map(at),
    heaters: heatersOf(joint, [a, b], lengths, at),
    pins: [
      ...rowOf(tips(a, aFront), {
        low: rightOf,
        high: width - edge,
        labelWidth,
        rows: rows.front,
        y: topY - lead - label.height,
        direction: -1,
      }),
      ...rowOf(tips(a, aBack), {
        low: edge,
        high: width - edge,
        labelWidth,
        rows: rows.back,
        y: bottomY + lead,
        direction: 1,
      }),
      ...columnOf(tips(b, bFront), {
        x: originX + lead + 12,
        low: edge,
        high: topY - overFlange - label.height,
        labelWidth,
        direction: 1,
      }),
      ...columnOf(tips(b, bBack), {
        x: originX - b.thickness * scale - lead - labelWidth,
        low: edge,
        high: topY - label.height,
        labelWidth,
        direction: -1,
      }),
    ],
    faces: [
      { text: 'front face', at: [faceX, topY + 17], anchor: 'end' },
      { text: 'back face', at: [faceX, bottomY - 8], anchor: 'end' },
    ],
  };
};
