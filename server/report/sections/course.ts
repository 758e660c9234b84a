/** The course of the temperatures: the whole job in one view of each group of probes, then long jobs again in pieces. */
import type { Instant } from '../../measure/quantity.ts';
import { listText } from '../../wording/list.ts';
import { type ChartModel, chartModels, detailSpans } from '../chart/chart-model.ts';
import { chartSvg } from '../chart/chart-svg.ts';
import { chartAlternative } from '../chart/chart-words.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { groupedBy } from '../papers/grouped-by.ts';

export const courseSection = (facts: ReportFacts, times: Times): Section => {
  const whole = chartModels(facts, facts.history.from, facts.history.to);
  const spans = detailSpans(facts.history.from, facts.history.to);
  return {
    heading: 'Course of the temperatures',
    blocks: [
      ...(whole.length === 0 ? [paragraph('No probe, so nothing to draw.')] : []),
      ...whole.map((model) => picture(model, facts, times)),
      paragraph(gapsText(whole, times)),
      paragraph(reading, 'small'),
      ...(facts.assessment.instruments === undefined ? [] : [paragraph(corrected, 'small')]),
      ...spans.flatMap(([from, to]) => detail(facts, times, from, to)),
    ],
  };
};

const reading =
  'Lines are told apart by dash, mark and the name at their end, so that they can be read in black and white. Each step of the time axis keeps its lowest and highest value: no peak is smoothed away. Where nothing was measured the line is broken, and bars below the chart show when.';

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

const detail = (facts: ReportFacts, times: Times, from: Instant, to: Instant): Block[] => [
  { kind: 'subheading', text: `In detail: ${times.span(from, to)}` },
  ...chartModels(facts, from, to).map((model) => picture(model, facts, times)),
];

const picture = (model: ChartModel, facts: ReportFacts, times: Times): Block => ({
  kind: 'picture',
  svg: chartSvg(model),
  alternative: chartAlternative(model, facts, times),
  caption: `${model.title}, ${times.span(model.from, model.to)}`,
});
