/** Labels of probes: near their places, side by side, each with a leader to its tip. In units of the sheet. */
import { spread } from './spread.ts';
import type { Mark, Vector } from './view.ts';

export interface Pin {
  readonly probe: string;
  /** On the face of the part. */
  readonly tip: Vector;
  /** Upper left corner of the label. */
  readonly label: Vector;
  readonly leader: readonly Vector[];
  /** In a plan: on the face that looks away. */
  readonly hidden: boolean;
  readonly beyond: boolean;
}

export interface Label {
  readonly width: number;
  readonly height: number;
  readonly gap: number;
}

export interface Tips {
  readonly marks: readonly Mark[];
  /** On the sheet, in the same order. */
  readonly tips: readonly Vector[];
}

export const rowsFor = (count: number, low: number, high: number, { width, gap }: Label): number =>
  count === 0 ? 0 : Math.ceil(count / Math.max(1, Math.floor((high - low + gap) / (width + gap))));

export interface Row {
  readonly low: number;
  readonly high: number;
  readonly label: Label;
  readonly rows: number;
  /** Upper edge of the nearest row, and where the next ones lie: above (-1) or below (1). */
  readonly y: number;
  readonly direction: -1 | 1;
  /** How far a leader stands off the face before it turns. */
  readonly stand: number;
}

/** Labels in one or more rows; neighbours go to different rows, so that leaders keep apart. */
export const rowOf = ({ marks, tips }: Tips, { low, high, label, rows, y, direction, stand }: Row): Pin[] => {
  const half = label.width / 2;
  const order = tips.map((_, index) => index).sort((a, b) => tips[a]![0] - tips[b]![0]);
  const rowOfIndex = new Map(order.map((index, rank) => [index, rank % Math.max(1, rows)]));
  const centre = new Map<number, number>();
  for (let row = 0; row < rows; row += 1) {
    const members = order.filter((index) => rowOfIndex.get(index) === row);
    const wanted = members.map((index) => tips[index]![0]);
    const xs = spread(wanted, label.width + label.gap, low + half, Math.max(low + half, high - half));
    members.forEach((index, position) => {
      centre.set(index, xs[position]!);
    });
  }
  return marks.map(({ probe, hidden, beyond }, index): Pin => {
    const tip = tips[index]!;
    const x = centre.get(index)!;
    const top = y + direction * rowOfIndex.get(index)! * (label.height + label.gap);
    const foot = direction < 0 ? top + label.height : top;
    const leader: Vector[] = [tip, [tip[0], tip[1] + direction * stand], [x, foot]];
    return { probe: probe.id, tip, label: [x - half, top], leader, hidden, beyond };
  });
};

export interface Column {
  /** Left edge of the labels. */
  readonly x: number;
  readonly low: number;
  readonly high: number;
  readonly label: Label;
  /** The labels lie to the right (1) or to the left (-1) of the part. */
  readonly direction: -1 | 1;
  readonly stand: number;
}

export const columnOf = ({ marks, tips }: Tips, { x, low, high, label, direction, stand }: Column): Pin[] => {
  const wanted = tips.map((tip) => tip[1] - label.height / 2);
  const ys = spread(wanted, label.height + label.gap, low, Math.max(low, high));
  return marks.map(({ probe, hidden, beyond }, index): Pin => {
    const tip = tips[index]!;
    const y = ys[index]!;
    const side: Vector = [direction > 0 ? x : x + label.width, y + label.height / 2];
    const leader: Vector[] = [tip, [tip[0] + direction * stand, tip[1]], side];
    return { probe: probe.id, tip, label: [x, y], leader, hidden, beyond };
  });
};
