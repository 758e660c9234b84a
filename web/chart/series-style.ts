/**
 * How the line of each probe looks. Colours are those of Okabe and Ito, in an order that keeps contrast on
 * the ground of the theme; the use of a probe is told by the stroke as well, and every line carries its name.
 */
import type { ProbeUse } from '../../server/weld/probe.ts';

export interface LineStyle {
  readonly colour: string;
  readonly dash: readonly number[];
  readonly width: number;
}

/** Okabe and Ito, Color Universal Design. Yellow only on a dark ground, black only on a light one. */
const onLight = ['#0072b2', '#009e73', '#cc79a7', '#000000', '#e69f00', '#56b4e9', '#d55e00'];
const onDark = ['#56b4e9', '#e69f00', '#009e73', '#f0e442', '#cc79a7', '#ffffff', '#d55e00'];

/** A stroke for each use; when the colours begin again, the stroke changes, so that no two lines look the same. */
const dashes: Readonly<Record<ProbeUse, readonly (readonly number[])[]>> = {
  zone: [[], [16, 4], [16, 4, 3, 4]],
  'opposite face': [
    [9, 4],
    [9, 4, 2, 4],
    [5, 5],
  ],
  interpass: [
    [2, 3],
    [2, 3, 7, 3],
    [2, 7],
  ],
  'heater control': [[1, 4]],
  ambient: [[1, 6]],
  spare: [[1, 8]],
};

export const lineStyle = (index: number, use: ProbeUse, theme: 'light' | 'dark'): LineStyle => {
  const palette = theme === 'dark' ? onDark : onLight;
  const strokes = dashes[use];
  return {
    colour: palette[index % palette.length]!,
    dash: strokes[Math.floor(index / palette.length) % strokes.length]!,
    width: use === 'zone' || use === 'opposite face' || use === 'interpass' ? 2 : 1.25,
  };
};
