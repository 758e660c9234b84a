/** Draws the uncertainty about a line: a light ground with a dotted edge, so that it is seen in black and white. */
import { number, path } from '../svg.ts';
import type { ChartLine } from './chart-model.ts';

interface Plot {
  readonly x: (at: number) => number;
  readonly y: (thousandths: number) => number;
  readonly top: number;
  readonly bottom: number;
}

export const drawBand = ({ band = [] }: ChartLine, { x, y, top, bottom }: Plot): string[] =>
  band.flatMap((run) => {
    const within = (level: number): number => Math.min(bottom, Math.max(top, level));
    const along = (which: 1 | 2): string[] =>
      run.map((point) => `${number(x(point[0]))} ${number(within(y(point[which])))}`);
    const [low, high] = [along(1), along(2)];
    const edge = { stroke: '#000', width: 0.35, dash: '0.8 1.4' };
    return [
      path(`M${[...high, ...low.toReversed()].join('L')}Z`, { fill: '#e3e3e3' }),
      path(`M${high.join('L')}`, edge),
      path(`M${low.join('L')}`, edge),
    ];
  });
