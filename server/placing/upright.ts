/**
 * Side B stands on side A: T, cruciform, corner, nozzle or branch. Labels of the upright part stand beside
 * it, those of the part below lie over and under it; the two never share a place.
 */
import { columnOf, rowOf, rowsFor, type Tips } from './pins.ts';
import { boxOf, type Sheet, type SheetSize, shapesOn, type ToSheet } from './shapes.ts';
import type { Mark, View } from './view.ts';

/** In widths of a label: a narrower sheet has room for one column only. */
const narrowBelow = 3.95;

export const upright = (view: View, { width, heightMost, label, lead, edge }: SheetSize): Sheet => {
  const { left, right, top, bottom } = boxOf(view);
  const on = (side: 'A' | 'B', face: 'front' | 'back'): Mark[] =>
    view.marks.filter(({ probe: { place } }) => place.side === side && place.face === face);
  const [aFront, aBack] = [on('A', 'front'), on('A', 'back')];
  // Without room for a second column, what sits on the back of the upright is led across it.
  const narrow = width < narrowBelow * label.width;
  const bFront = narrow ? view.marks.filter(({ probe }) => probe.place.side === 'B') : on('B', 'front');
  const bBack = narrow ? [] : on('B', 'back');

  const leftColumn = bBack.length > 0 ? label.width + lead : 0;
  const rightColumn = bFront.length > 0 ? lead * 1.4 + label.width : 0;
  const room = width - 2 * edge - leftColumn;
  const scale = Math.min(room / (right - left), (room - rightColumn) / -left, heightMost / (bottom - top));
  const originX = edge + leftColumn - left * scale;
  const rightOf = originX + lead / 2;
  const rows = {
    front: rowsFor(aFront.length, rightOf, width - edge, label),
    back: rowsFor(aBack.length, edge, width - edge, label),
  };
  const stack = (count: number): number => count * (label.height + label.gap);
  const overFlange = rows.front === 0 ? 0 : lead + stack(rows.front);
  const above = Math.max(-top * scale, stack(bFront.length) + overFlange, stack(bBack.length)) + label.gap;
  // The front face of side A lies at 0.
  const topY = edge + above;
  const thicknessA = Math.max(0, ...aBack.map(({ at: [, y] }) => y)) * scale;
  const below = Math.max(bottom * scale, rows.back === 0 ? 0 : thicknessA + lead + stack(rows.back));
  const at: ToSheet = ([x, y]) => [originX + x * scale, topY + y * scale];
  const tips = (marks: readonly Mark[]): Tips => ({ marks, tips: marks.map((mark) => at(mark.at)) });
  const shared = { label, stand: lead * 0.4 };
  const row = { ...shared, high: width - edge };
  const column = { ...shared, low: edge };
  const backX = Math.min(0, ...bBack.map(({ at: [x] }) => x)) * scale;
  return {
    ...shapesOn(view, at, scale),
    width,
    height: topY + below + label.gap + edge,
    labelWidth: label.width,
    pins: [
      ...rowOf(tips(aFront), {
        ...row,
        low: rightOf,
        rows: rows.front,
        y: topY - lead - label.height,
        direction: -1,
      }),
      ...rowOf(tips(aBack), { ...row, low: edge, rows: rows.back, y: topY + thicknessA + lead, direction: 1 }),
      ...columnOf(tips(bFront), {
        ...column,
        x: originX + lead * 1.4,
        high: topY - overFlange - label.height,
        direction: 1,
      }),
      ...columnOf(tips(bBack), {
        ...column,
        x: originX + backX - lead - label.width,
        high: topY - label.height,
        direction: -1,
      }),
    ],
  };
};
