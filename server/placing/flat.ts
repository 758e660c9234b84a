/** Both sides in one line: butt joints, laps, repairs. Labels of the front face above, of the back face below. */
import { rowOf, rowsFor, type Tips } from './pins.ts';
import { boxOf, type Sheet, type SheetSize, shapesOn, type ToSheet } from './shapes.ts';
import type { Mark, View } from './view.ts';

export const flat = (view: View, { width, heightMost, label, lead, edge }: SheetSize): Sheet => {
  const { left, right, top, bottom } = boxOf(view);
  const scale = Math.min((width - 2 * edge) / (right - left), heightMost / (bottom - top));
  const front = view.marks.filter(({ probe }) => probe.place.face === 'front');
  const back = view.marks.filter(({ probe }) => probe.place.face === 'back');
  const room = { low: edge, high: width - edge };
  const rows = {
    front: rowsFor(front.length, room.low, room.high, label),
    back: rowsFor(back.length, room.low, room.high, label),
  };
  const stack = (count: number): number => (count === 0 ? lead / 2 : lead + count * (label.height + label.gap));
  const topY = edge + stack(rows.front);
  const bottomY = topY + (bottom - top) * scale;
  const middle = width / 2 - ((left + right) / 2) * scale;
  const at: ToSheet = ([x, y]) => [middle + x * scale, topY + (y - top) * scale];
  const tips = (marks: readonly Mark[]): Tips => ({ marks, tips: marks.map((mark) => at(mark.at)) });
  const shared = { ...room, label, stand: lead * 0.4 };
  return {
    ...shapesOn(view, at, scale),
    width,
    height: bottomY + stack(rows.back) + edge,
    labelWidth: label.width,
    pins: [
      ...rowOf(tips(front), { ...shared, rows: rows.front, y: topY - lead - label.height, direction: -1 }),
      ...rowOf(tips(back), { ...shared, rows: rows.back, y: bottomY + lead, direction: 1 }),
    ],
  };
};
