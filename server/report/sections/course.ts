/** The course of the temperatures: the whole job in one view of each group of probes, then long jobs again in pieces. */
import { instant } from '../../measure/quantity.ts';
import { listText } from '../../wording/list.ts';
import { type ChartModel, chartModels } from '../chart/chart-model.ts';
import { chartPicture } from '../chart/chart-picture.ts';
import type { Span } from '../chart/course.ts';
import { detailSpans } from '../chart/detail-spans.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { groupedBy } from '../papers/grouped-by.ts';

export const courseSection = (facts: ReportFacts, times: Times): Section => {
  const whole = chartModels(facts, facts.history.from, facts.history.to);
  const details = detailsOf(facts);
  return {
    heading: 'Course of the temperatures',
    blocks: [
      ...(whole.length === 0 ? [paragraph('No probe, so nothing to draw.')] : []),
      ...whole.map((model) => chartPicture(model, facts, times)),
      paragraph(gapsText(whole, times)),
      paragraph(reading, 'small'),
      ...(facts.assessment.instruments === undefined ? [] : [paragraph(corrected, 'small')]),
      ...details.flatMap((span) => detail(facts, times, span)),
    ],
  };
};

const reading =
  'Lines are told apart by dash, mark and the name at their end, so that they can be read in black and white. Each step of the time axis keeps its lowest and highest value: no peak is smoothed away. Where nothing was measured the line is broken, and bars below the chart show when. Above it stand passes, breaks and heat as they were entered, below it the alarms that rang and what was not kept or not judged; dotted lines mark where a break begins and ends.';

const corrected =
  'The lines show what was judged, with the corrections of the calibrations. What the instruments gave stands in the CSV of all readings and in the record. A dotted band about one line of each chart, the one that was coldest when passes began, is its uncertainty, plus or minus (k = 2); that of the others is about as wide and is left out, so that the lines can be read.';

/** In words too: a bar below a chart is soon overlooked. */
const gapsText = (whole: readonly ChartModel[], times: Times): string => {
  const lines = whole.flatMap((model) => model.lines);
  const spans = lines.flatMap(({ name, gaps }) => gaps.map(({ from, to }) => ({ name, when: times.span(from, to) })));
  const gaps = groupedBy(spans, ({ when }) => when).map(([when, ...list]) => {
    const names = list.map(({ name }) => name);
    return `${names.length === lines.length ? 'all probes' : listText(names)} ${when}`;
  });
  const more = gaps.length > gapsShown ? `; and ${gaps.length - gapsShown} more` : '';
  return `Gaps without readings: ${gaps.length === 0 ? 'none' : gaps.slice(0, gapsShown).join('; ')}${more}.`;
};

const gapsShown = 12;

/** Up to the end of welding; what comes after it has a picture of its own (after-welding.ts). */
const detailsOf = ({ history, assessment: { passes, after } }: ReportFacts): Span[] => {
  const last = passes.reduce((latest, { startedAt, endedAt }) => Math.max(latest, endedAt ?? startedAt), 0);
  const end = instant(Math.max(last, after?.completedAt ?? 0));
  const work = { from: history.from, to: after === undefined || end <= history.from ? history.to : end };
  return detailSpans(
    work,
    history,
    passes.map(({ startedAt, endedAt }) => ({ from: startedAt, to: endedAt ?? history.to })),
  );
};

const detail = (facts: ReportFacts, times: Times, { from, to }: Span): Block[] => {
  const models = chartModels(facts, from, to);
  return [
    { kind: 'subheading', text: `In detail: ${times.span(from, to)}${doneText(models[0])}` },
    ...models.map((model) => chartPicture(model, facts, times)),
  ];
};

/** ", passes 1 to 6, 1 break". */
const doneText = (model: ChartModel | undefined): string => {
  if (model === undefined) return '';
  const { passes, breaks, alarms } = model.lanes;
  const [first, last] = [passes[0]?.label, passes.at(-1)?.label];
  const count = (list: readonly unknown[], one: string, many: string): string =>
    list.length === 0 ? '' : `, ${list.length} ${list.length === 1 ? one : many}`;
  const welded = first === undefined ? '' : first === last ? `, pass ${first}` : `, passes ${first} to ${last}`;
  return `${welded}${count(breaks, 'break', 'breaks')}${count(alarms, 'alarm', 'alarms')}`;
};
