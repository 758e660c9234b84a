/**
 * How lines are told apart: by dash and by mark first, so that a black-and-white print loses nothing, and by
 * colour besides (Okabe and Ito's colour-blind-safe set, its yellow left out as too pale for paper).
 */
import { number, path } from '../svg.ts';

interface LineStyle {
  readonly colour: string;
  readonly dash: string;
  /** Draws the mark around a point. */
  readonly mark: (x: number, y: number) => string;
}

export const lineStyle = (index: number): LineStyle => styles[index % styles.length]!;

const size = 2.1;
const polygon =
  (points: readonly (readonly [number, number])[], colour: string, filled: boolean) =>
  (x: number, y: number): string =>
    path(`M${points.map(([dx, dy]) => `${number(x + dx * size)} ${number(y + dy * size)}`).join('L')}Z`, {
      fill: filled ? colour : '#fff',
      stroke: colour,
      width: 0.8,
    });
const square = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;
const diamond = [
  [0, -1.35],
  [1.35, 0],
  [0, 1.35],
  [-1.35, 0],
] as const;
const triangle = [
  [0, -1.3],
  [1.25, 1],
  [-1.25, 1],
] as const;
const inverted = [
  [0, 1.3],
  [1.25, -1],
  [-1.25, -1],
] as const;

const shaped = (
  colour: string,
  dash: string,
  points: readonly (readonly [number, number])[],
  filled: boolean,
): LineStyle => ({ colour, dash, mark: polygon(points, colour, filled) });

const styles: readonly LineStyle[] = [
  shaped('#000000', '', square, true),
  shaped('#0072B2', '7 2', triangle, true),
  shaped('#D55E00', '2.5 1.5', diamond, false),
  shaped('#009E73', '9 2 2 2', square, false),
  shaped('#A8377F', '1.2 1.6', inverted, true),
  shaped('#3D7FB5', '12 3', diamond, true),
  shaped('#9A6A00', '6 1.5 1.2 1.5 1.2 1.5', triangle, false),
  shaped('#555555', '4 3', inverted, false),
];
