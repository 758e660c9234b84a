/**
 * Puts a picture on a canvas with Chart.js. One wrapper makes and destroys the chart: a canvas that is left
 * with a living chart leaks. Nothing is thinned, parsed or animated here; the picture is drawn as it is.
 */
import {
  Chart,
  type ChartConfiguration,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
} from 'chart.js';
import { type Area, drawEnds, drawLimitNames, drawUnder, type Inks, labelRoom, markRoom } from './layers.ts';
import type { Picture } from './picture.ts';

Chart.register(LineController, LineElement, PointElement, LinearScale);

export interface Drawing {
  draw(picture: Picture, inks: Inks): void;
  destroy(): void;
}

export const createDrawing = (canvas: HTMLCanvasElement): Drawing => {
  let now: { picture: Picture; inks: Inks } | undefined;
  const layers: Plugin<'line'> = {
    id: 'layers',
    beforeDatasetsDraw: (chart) => {
      if (now !== undefined) drawUnder(chart.ctx, now.picture, areaOf(chart), now.inks);
    },
    afterDatasetsDraw: (chart) => {
      if (now === undefined) return;
      drawLimitNames(chart.ctx, now.picture, areaOf(chart), now.inks);
      drawEnds(chart.ctx, now.picture, areaOf(chart), now.inks);
    },
  };
  const chart = new Chart(canvas, { type: 'line', data: { datasets: [] }, plugins: [layers] });
  return {
    draw(picture, inks) {
      now = { picture, inks };
      const { data, options } = configuration(picture, inks);
      chart.data = data;
      if (options !== undefined) chart.options = options;
      chart.update('none');
    },
    destroy() {
      chart.destroy();
    },
  };
};

const areaOf = ({ chartArea, scales }: Chart): Area => ({
  left: chartArea.left,
  right: chartArea.right,
  top: chartArea.top,
  bottom: chartArea.bottom,
  x: (at) => scales.x!.getPixelForValue(at),
  y: (celsius) => scales.y!.getPixelForValue(celsius),
});

type Config = ChartConfiguration<'line', { x: number; y: number | null }[]>;

function configuration(picture: Picture, inks: Inks): Config {
  const { stretch, scale, timeTicks } = picture;
  const tickFont = { family: inks.font, size: 13 };
  return {
    type: 'line',
    data: {
      datasets: picture.lines.map((line) => ({
        label: line.probe,
        data: [...line.points],
        borderColor: line.style.colour,
        borderWidth: line.style.width,
        // A mitre at the foot of a narrow peak would stand far out of what was measured.
        borderJoinStyle: 'round',
        borderDash: [...line.style.dash],
        pointRadius: 0,
        pointHitRadius: 0,
        tension: 0,
        spanGaps: false,
      })),
    },
    options: {
      animation: false,
      parsing: false,
      normalized: true,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      layout: { padding: { right: labelRoom, top: markRoom } },
      scales: {
        x: {
          type: 'linear',
          min: stretch.from,
          max: stretch.to,
          afterBuildTicks: (axis) => {
            axis.ticks = timeTicks.map(({ at }) => ({ value: at }));
          },
          ticks: {
            autoSkip: false,
            maxRotation: 0,
            color: inks.faint,
            font: tickFont,
            callback: (value) => timeTicks.find(({ at }) => at === value)?.text ?? '',
          },
          grid: { color: inks.grid, drawTicks: false },
          border: { color: inks.faint },
        },
        y: {
          type: 'linear',
          min: scale.low,
          max: scale.high,
          afterBuildTicks: (axis) => {
            axis.ticks = scale.ticks.map(({ at }) => ({ value: at }));
          },
          ticks: {
            autoSkip: false,
            color: inks.faint,
            font: tickFont,
            callback: (value) => scale.ticks.find(({ at }) => at === value)?.text ?? '',
          },
          grid: { color: inks.grid, drawTicks: false },
          border: { display: false },
        },
      },
    },
  };
}
