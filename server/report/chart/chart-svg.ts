/** Draws a chart model. All positions come from the model; nothing is judged, rounded or left out here. */
import { degreeUnit, shownDegrees } from '../../wording/temperature.ts';
import { fitted, line, number, path, rectangle, spread, svg, text, widthOf } from '../svg.ts';
import { drawBand } from './band-svg.ts';
import type { ChartLimit, ChartLine, ChartModel } from './chart-model.ts';
import type { Point, Span } from './course.ts';
import type { Bar } from './lanes.ts';
import { lineStyle } from './line-style.ts';

const width = 511;
const left = 30;
const right = 86;
const plotWidth = width - left - right;
/** Two charts with their captions fill a page; the plot has what the lanes leave, and half at least. */
const chartHeight = 306;
const laneHeight = 7.5;
const lanesMaximum = 3;
const axisHeight = 30;
const gapTitleHeight = 9;

interface Frame {
  readonly x: (at: number) => number;
  /** Of thousandths of a degree Celsius. */
  readonly y: (thousandths: number) => number;
  /** Of degrees as the axis counts them. */
  readonly level: (degrees: number) => number;
  readonly top: number;
  readonly bottom: number;
}

export const chartSvg = (model: ChartModel, height = chartHeight): string => {
  const { passes, breaks, heat, alarms, findings } = model.lanes;
  const above: Lane[] = [
    ...lanes('passes', passes, '#c4c4c4'),
    ...lanes('breaks', breaks, '#fff').slice(0, 1),
    ...lanes('heat', heat, '#fff').slice(0, 1),
  ];
  const below: Lane[] = [
    ...model.lines.filter(({ gaps }) => gaps.length > 0).map(gapLane),
    ...lanes('alarms', alarms, '#fff'),
    ...lanes('findings', findings, '#000').slice(0, 1),
  ];
  const top = 4 + above.length * laneHeight + 3;
  const belowHeight = axisHeight + below.length * laneHeight + (anyGap(model) ? gapTitleHeight : 0);
  const plotHeight = Math.max(height / 2, height - top - belowHeight);
  const bottom = top + plotHeight;
  const level = (degrees: number): number =>
    bottom - ((degrees - model.axis.lowest) / (model.axis.highest - model.axis.lowest)) * plotHeight;
  const frame: Frame = {
    // A step that began before the chart is drawn from its edge on.
    x: (at) => left + Math.min(1, Math.max(0, (at - model.from) / Math.max(1, model.to - model.from))) * plotWidth,
    y: (value) => level(shownDegrees(value, model.units)),
    level,
    top,
    bottom,
  };
  const lanesTop = bottom + axisHeight;
  const firstLane = lanesTop + (anyGap(model) ? gapTitleHeight : 0);
  return svg(width, bottom + belowHeight + 2, [
    ...above.flatMap((lane, index) => drawLane(lane, 4 + index * laneHeight, frame)),
    ...passes.map(({ from, to }) =>
      rectangle(frame.x(from), top, Math.max(0.6, frame.x(to) - frame.x(from)), plotHeight, { fill: '#ececec' }),
    ),
    ...breaks.flatMap(({ from, to }) =>
      [from, to].map((at) => line(frame.x(at), top, frame.x(at), bottom, '#000', 0.5, '1 2.5')),
    ),
    ...valueAxis(model, frame),
    ...timeAxis(model, frame),
    ...limitsOutside(model, frame),
    ...model.limits.flatMap((limit, index) => drawLimit(limit, index, model, frame)),
    ...model.lines.flatMap((each) => drawBand(each, frame)),
    ...model.lines.flatMap((each) => drawLine(each, frame)),
    ...endLabels(model, frame),
    ...(anyGap(model) ? [text(left, lanesTop + 4, 'Not measured (bars), by probe:', { size: 6.5 })] : []),
    ...below.flatMap((lane, index) => drawLane(lane, firstLane + index * laneHeight, frame)),
  ]);
};

const anyGap = ({ lines }: ChartModel): boolean => lines.some(({ gaps }) => gaps.length > 0);

const valueAxis = ({ axis, units }: ChartModel, { level, top, bottom }: Frame): string[] => [
  ...axis.ticks.flatMap((tick) => [
    line(left, level(tick), left + plotWidth, level(tick), '#bdbdbd', 0.35),
    text(left - 3, level(tick) + 2.4, `${tick < 0 ? '\u2212' : ''}${Math.abs(tick)}`, { anchor: 'end' }),
  ]),
  rectangle(left, top, plotWidth, bottom - top, { stroke: '#000' }),
  text(2, top + 3, degreeUnit(units), { weight: 'bold' }),
];

/** In reach of no line, on ground of its own. */
const limitsOutside = ({ limitsAbove }: ChartModel, { top }: Frame): string[] =>
  limitsAbove.flatMap((label, index) => {
    const words = `above this chart: ${label}`;
    const right = left + plotWidth - 3;
    return [
      rectangle(right - widthOf(words, 6.5) - 1, top + 2 + index * 8, widthOf(words, 6.5) + 2, 8, { fill: '#fff' }),
      text(right - 1, top + 8 + index * 8, words, { anchor: 'end', size: 6.5 }),
    ];
  });

const timeAxis = ({ timeTicks, timeCaption }: ChartModel, { x, bottom, top }: Frame): string[] => [
  ...timeTicks.flatMap(({ at, label, date }) => [
    line(x(at), top, x(at), bottom, '#d6d6d6', 0.35),
    line(x(at), bottom, x(at), bottom + 3),
    text(x(at), bottom + 10, label, { anchor: 'middle' }),
    ...(date === undefined ? [] : [text(x(at), bottom + 18, date, { anchor: 'middle', size: 6.5 })]),
  ]),
  text(left + plotWidth, bottom + 26, timeCaption, { anchor: 'end', size: 6.5 }),
];

/**
 * The wrong side of a limit is hatched, so that a minimum and a maximum differ without their names. Drawn
 * beneath the lines: a limit never hides a reading.
 */
const drawLimit = (limit: ChartLimit, index: number, model: ChartModel, frame: Frame): string[] => {
  const { label, value, wrongSide } = limit;
  const level = frame.y(value);
  const away = wrongSide === 'below' ? 4 : -4;
  const hatch = Array.from(
    { length: Math.floor((plotWidth - 4) / 9) },
    (_, stroke) => `M${number(left + 4 + stroke * 9)} ${number(level)}l-2.5 ${away}`,
  ).join('');
  const room = widthOf(label, 6.5) + 4;
  // On its right side, unless the readings run there all along.
  const sides = wrongSide === 'below' ? [level - 2.4, level + 7.4] : [level + 7.4, level - 2.4];
  const { x: labelX, y: labelY } = clearest(room, sides, index, model, frame);
  return [
    line(left, level, left + plotWidth, level, '#000', 1.1),
    path(hatch, { stroke: '#000', width: 0.4 }),
    rectangle(labelX, labelY - 5.8, room, 7.4, { fill: '#fff' }),
    text(labelX + 2, labelY, label, { size: 6.5, weight: 'bold' }),
  ];
};

/** The first of some places along a limit where the fewest readings run through its name. */
const clearest = (
  room: number,
  sides: readonly number[],
  index: number,
  { lines, from, to }: ChartModel,
  { y }: Frame,
): { readonly x: number; readonly y: number } => {
  const places = 7;
  const candidates = sides.flatMap((side) =>
    Array.from({ length: places }, (_, place) => ({
      x: left + 3 + ((place + index) % places) * ((plotWidth - room - 6) / (places - 1)),
      y: side,
    })),
  );
  const samples = 12;
  const crossed = candidates.map(
    (place) =>
      Array.from({ length: samples }, (_, sample) => place.x - 2 + (sample / (samples - 1)) * (room + 4))
        .flatMap((at) =>
          lines.flatMap(({ runs }) => interpolated(runs, from + ((at - left) / plotWidth) * (to - from))),
        )
        .filter(([, value]) => Math.abs(y(value) - (place.y - 2)) < 6).length,
  );
  return candidates[crossed.indexOf(Math.min(...crossed))]!;
};

const drawLine = ({ runs, style }: ChartLine, frame: Frame): string[] => {
  const { colour, dash, mark } = lineStyle(style);
  const d = runs.map((run) => runPath(run, frame)).join('');
  return d === ''
    ? []
    : [
        path(d, { stroke: colour, width: 0.9, dash }),
        ...markPoints(runs, style).map(([at, value]) => mark(frame.x(at), frame.y(value))),
      ];
};

/** A run of one point is a short stroke: a single reading between two gaps is seen. */
const runPath = (run: readonly Point[], { x, y }: Frame): string => {
  const [[at, value] = [0, 0], ...rest] = run;
  const begin = `M${number(x(at))} ${number(y(value))}`;
  if (rest.length === 0) return `${begin}h0.8`;
  return `${begin}L${rest.map(([nextAt, next]) => `${number(x(nextAt))} ${number(y(next))}`).join(' ')}`;
};

/** Marks about every seventh of the width, shifted from line to line so that they do not sit on each other. */
const markPoints = (runs: ChartLine['runs'], style: number): Point[] => {
  const all = runs.flat();
  const [first, last] = [all[0], all.at(-1)];
  if (first === undefined || last === undefined) return [];
  const marks = 7;
  const wanted = Array.from(
    { length: marks },
    (_, index) => first[0] + ((index + 0.2 + (style % 8) * 0.09) / marks) * (last[0] - first[0]),
  );
  return wanted.flatMap((at) => interpolated(runs, at));
};

/** A point on the drawn line; none where the line is broken. */
const interpolated = (runs: ChartLine['runs'], at: number): Point[] => {
  for (const run of runs) {
    if (run[0]![0] > at || run.at(-1)![0] < at) continue;
    const index = firstFrom(run, at);
    const [a, b] = [run[Math.max(0, index - 1)]!, run[index]!];
    const share = b[0] === a[0] ? 0 : (at - a[0]) / (b[0] - a[0]);
    return [[at, a[1] + share * (b[1] - a[1])]];
  }
  return [];
};

/** By halves: it is asked for thousands of times, of thousands of points. */
const firstFrom = (run: readonly Point[], at: number): number => {
  let [low, high] = [0, run.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (run[middle]![0] >= at) high = middle;
    else low = middle + 1;
  }
  return low;
};

const endLabels = ({ lines }: ChartModel, { x, y, top, bottom }: Frame): string[] => {
  const ends = lines.map(({ runs }) => runs.at(-1)?.at(-1));
  const heights = spread(
    ends.map((end) => (end === undefined ? bottom : y(end[1]))),
    9,
    top + 3,
    bottom - 1,
  );
  const labelX = left + plotWidth + 14;
  return lines.flatMap(({ name, style }, index) => {
    const end = ends[index];
    const at = heights[index]!;
    const { colour, mark } = lineStyle(style);
    const words = end === undefined ? `${name}: no reading` : name;
    return [
      ...(end === undefined
        ? []
        : [
            path(`M${number(x(end[0]))} ${number(y(end[1]))}L${number(labelX - 5)} ${number(at)}`, {
              stroke: colour,
              width: 0.4,
              dash: '1 1',
            }),
          ]),
      mark(labelX - 2, at),
      text(labelX + 3, at + 2.4, fitted(words, 7, width - labelX - 4), { fill: '#000' }),
    ];
  });
};

interface Lane {
  readonly name: string;
  readonly bars: readonly (Span & { readonly label: string })[];
  readonly fill: string;
}

const lanes = (name: string, bars: readonly Bar[], fill: string): Lane[] => {
  const count = Math.min(lanesMaximum, Math.max(0, ...bars.map(({ lane }) => lane + 1)));
  return Array.from({ length: count }, (_, lane) => ({
    name: lane === 0 ? name : '',
    bars: bars.filter((bar) => Math.min(bar.lane, lanesMaximum - 1) === lane),
    fill,
  }));
};

const gapLane = ({ name, gaps }: ChartLine): Lane => ({
  name,
  bars: gaps.map((gap) => ({ ...gap, label: '' })),
  fill: '#6b6b6b',
});

const drawLane = ({ name, bars, fill }: Lane, top: number, { x }: Frame): string[] => [
  text(left + plotWidth + 4, top + 6, fitted(name, 6.5, right - 6), { size: 6.5 }),
  line(left, top + 4, left + plotWidth, top + 4, '#bdbdbd', 0.35),
  ...bars.flatMap(({ label, from, to }) => {
    const wide = Math.max(0.8, x(to) - x(from));
    const fits = label !== '' && fill !== '#000' && widthOf(label, 6) <= wide - 1;
    const dark = label === 'on';
    return [
      rectangle(x(from), top + 0.8, wide, laneHeight - 1.6, {
        fill: dark ? '#8a8a8a' : fill,
        stroke: '#000',
        strokeWidth: 0.3,
      }),
      ...(fits
        ? [text(x(from) + wide / 2, top + 6, label, { size: 6, anchor: 'middle', fill: dark ? '#fff' : '#000' })]
        : []),
    ];
  }),
];
