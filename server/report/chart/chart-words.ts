/** A chart for people who cannot see it: what it covers, its limits, and of each probe the extremes and gaps. */
import { instant, milliCelsius } from '../../measure/quantity.ts';
import { inside, listText } from '../../wording/list.ts';
import { temperatureText } from '../../wording/temperature.ts';
import type { ReportFacts } from '../facts.ts';
import type { Times } from '../paper.ts';
import type { ChartLine, ChartModel } from './chart-model.ts';
import type { Bar } from './lanes.ts';

export const chartAlternative = (model: ChartModel, facts: ReportFacts, times: Times): string =>
  [
    `Chart, ${inside(model.title)}, ${times.full(model.from)} to ${times.full(model.to)}.`,
    model.limits.length === 0
      ? 'No limit is stated.'
      : `${model.limits.length === 1 ? 'Limit' : 'Limits'}: ${model.limits.map(({ label }) => label).join(', ')}.`,
    ...model.lines.map((line) => lineText(line, facts, times)),
    model.lanes.passes.length === 0
      ? 'No pass in this time.'
      : `${counted(model.lanes.passes.length, 'pass', 'passes')}: ${listText(model.lanes.passes.map(({ label }) => label))}.`,
    ...barsText('Break', model.lanes.breaks, times),
    ...barsText('Alarm', model.lanes.alarms, times),
  ].join(' ');

const barsText = (name: string, bars: readonly Bar[], times: Times): string[] =>
  bars.length === 0
    ? []
    : [`${name}: ${listText(bars.map(({ label, from, to }) => `${label} ${times.span(from, to)}`))}.`];

const lineText = ({ name, runs, gaps }: ChartLine, { assessment }: ReportFacts, times: Times): string => {
  const points = runs.flat();
  const [first] = points;
  if (first === undefined) return `${name}: no reading.`;
  const lowest = points.reduce((a, b) => (b[1] < a[1] ? b : a));
  const highest = points.reduce((a, b) => (b[1] > a[1] ? b : a));
  const limit = [assessment.limits.preheatMinimum, assessment.limits.interpassMaximum].filter(
    (each) => each !== undefined,
  );
  const words = ([, value]: readonly [number, number]): string =>
    temperatureText(milliCelsius(value / 1000), assessment.requirement.units, { limit });
  const broken = gaps.length === 0 ? '' : `, ${counted(gaps.length, 'gap', 'gaps')}`;
  return `${name}: lowest ${words(lowest)}, highest ${words(highest)} at ${times.when(instant(highest[0]))}${broken}.`;
};

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
