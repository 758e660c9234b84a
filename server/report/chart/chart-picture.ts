/** A chart as it stands in a report: drawn, told for whoever cannot see it, with its caption. */
import type { ReportFacts } from '../facts.ts';
import type { Block } from '../page-model.ts';
import type { Times } from '../paper.ts';
import type { ChartModel } from './chart-model.ts';
import { chartSvg } from './chart-svg.ts';
import { chartAlternative } from './chart-words.ts';

export const chartPicture = (
  model: ChartModel,
  facts: ReportFacts,
  times: Times,
  { height, more = '' }: { readonly height?: number; readonly more?: string } = {},
): Block => ({
  kind: 'picture',
  svg: chartSvg(model, height),
  alternative: chartAlternative(model, facts, times),
  caption: `${model.title}, ${times.span(model.from, model.to)}${more}`,
});
