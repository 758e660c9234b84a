/** A plan with its labels in two columns, each probe's on the side that it lies to. */
import { columnOf, type Tips } from './pins.ts';
import { boxOf, type Sheet, type SheetSize, shapesOn, type ToSheet } from './shapes.ts';
import type { Mark, View } from './view.ts';

export const around = (view: View, { width, heightMost, label, lead, edge }: SheetSize): Sheet => {
  const { left, right, top, bottom } = boxOf(view);
  const { toLeft, toRight } = halves(view.marks);
  const column = (count: number): number => (count === 0 ? 0 : label.width + lead);
  const stack = (count: number): number => Math.max(0, count * (label.height + label.gap) - label.gap);
  const room = width - 2 * edge - column(toLeft.length) - column(toRight.length);
  const scale = Math.min(room / (right - left), heightMost / (bottom - top));
  const drawn = (bottom - top) * scale;
  const tallest = Math.max(drawn, stack(toLeft.length), stack(toRight.length));
  const height = tallest + 2 * edge;
  const middleX = edge + column(toLeft.length) + room / 2 - ((left + right) / 2) * scale;
  const middleY = height / 2 - ((top + bottom) / 2) * scale;
  const at: ToSheet = ([x, y]) => [middleX + x * scale, middleY + y * scale];
  const tips = (marks: readonly Mark[]): Tips => ({ marks, tips: marks.map((mark) => at(mark.at)) });
  const shared = { label, low: edge, high: height - edge - label.height, stand: lead * 0.25 };
  return {
    ...shapesOn(view, at, scale),
    width,
    height,
    labelWidth: label.width,
    pins: [
      ...columnOf(tips(toLeft), { ...shared, x: edge, direction: -1 }),
      ...columnOf(tips(toRight), { ...shared, x: width - edge - label.width, direction: 1 }),
    ],
  };
};

/** What lies on the middle line goes where there is more room. */
const halves = (marks: readonly Mark[]): { readonly toLeft: Mark[]; readonly toRight: Mark[] } => {
  const toLeft: Mark[] = [];
  const toRight: Mark[] = [];
  const sideways = (mark: Mark): boolean => Math.abs(mark.out[0]) > 1e-6;
  for (const mark of [...marks.filter(sideways), ...marks.filter((one) => !sideways(one))]) {
    const left = sideways(mark) ? mark.out[0] < 0 : toLeft.length < toRight.length;
    (left ? toLeft : toRight).push(mark);
  }
  return { toLeft, toRight };
};
