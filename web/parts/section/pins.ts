/** Labels of probes: near their places, side by side, each with a leader to its tip. Pixels. */
import type { Probe } from '../../../server/weld/probe.ts';
import { spread } from '../../chart/spread.ts';
import type { Frame, Vector } from './frames.ts';

export type Placed = Probe & { readonly place: NonNullable<Probe['place']> };

export interface Pin {
  readonly probe: string;
  /** On the face of the part. */
  readonly tip: Vector;
  /** Upper left corner of the label. */
  readonly label: Vector;
  readonly leader: readonly Vector[];
}

export const label = { height: 62, gap: 8 } as const;
/** Room between a face and the nearest row of labels. */
export const lead = 30;
/** Room at the edge of the drawing. */
export const edge = 6;

export interface Tips {
  readonly probes: readonly Placed[];
  readonly tips: readonly Vector[];
}

/** Where the probe touches the part, in millimetres. */
export const tipOf = (frame: Frame, { place }: Placed): Vector => {
  const depth = place.face === 'front' ? 0 : frame.thickness;
  const d = place.distanceMillimetres;
  return [
    frame.origin[0] + frame.along[0] * d - frame.out[0] * depth,
    frame.origin[1] + frame.along[1] * d - frame.out[1] * depth,
  ];
};

export const rowsFor = (count: number, low: number, high: number, labelWidth: number): number =>
  count === 0 ? 0 : Math.ceil(count / Math.max(1, Math.floor((high - low + label.gap) / (labelWidth + label.gap))));

export interface Row {
  readonly low: number;
  readonly high: number;
  readonly labelWidth: number;
  readonly rows: number;
  /** Upper edge of the nearest row, and where the next ones lie: above (-1) or below (1). */
  readonly y: number;
  readonly direction: -1 | 1;
}

/** Labels in one or more rows; neighbours go to different rows, so that leaders keep apart. */
export const rowOf = ({ probes, tips }: Tips, { low, high, labelWidth, rows, y, direction }: Row): Pin[] => {
  const half = labelWidth / 2;
  const order = tips.map((_, index) => index).sort((a, b) => tips[a]![0] - tips[b]![0]);
  const rowOfIndex = new Map(order.map((index, rank) => [index, rank % Math.max(1, rows)]));
  const centre = new Map<number, number>();
  for (let row = 0; row < rows; row += 1) {
    const members = order.filter((index) => rowOfIndex.get(index) === row);
    const wanted = members.map((index) => tips[index]![0]);
    const xs = spread(wanted, labelWidth + label.gap, low + half, Math.max(low + half, high - half));
    members.forEach((index, position) => {
      centre.set(index, xs[position]!);
    });
  }
  return probes.map(({ id }, index): Pin => {
    const tip = tips[index]!;
    const x = centre.get(index)!;
    const top = y + direction * rowOfIndex.get(index)! * (label.height + label.gap);
    const foot = direction < 0 ? top + label.height : top;
    return { probe: id, tip, label: [x - half, top], leader: [tip, [tip[0], tip[1] + direction * 12], [x, foot]] };
  });
};

export interface Column {
  /** Left edge of the labels. */
  readonly x: number;
  readonly low: number;
  readonly high: number;
  readonly labelWidth: number;
  /** The labels lie to the right (1) or to the left (-1) of the part. */
  readonly direction: -1 | 1;
}

export const columnOf = ({ probes, tips }: Tips, { x, low, high, labelWidth, direction }: Column): Pin[] => {
  const wanted = tips.map((tip) => tip[1] - label.height / 2);
  const ys = spread(wanted, label.height + label.gap, low, Math.max(low, high));
  return probes.map(({ id }, index): Pin => {
    const tip = tips[index]!;
    const y = ys[index]!;
    const side: Vector = [direction > 0 ? x : x + labelWidth, y + label.height / 2];
    return { probe: id, tip, label: [x, y], leader: [tip, [tip[0] + direction * 12, tip[1]], side] };
  });
};
