/** Post-heating, cooling, heat treatment, the wait before testing and the spots of probes, as they were judged, with the course of that time. */
import { type Instant, type MilliCelsius, milliCelsius } from '../../measure/quantity.ts';
import { afterLines } from '../../wording/after.ts';
import { limitText, temperatureText } from '../../wording/temperature.ts';
import { type ChartLimit, chartModels, limitsOf } from '../chart/chart-model.ts';
import { chartPicture } from '../chart/chart-picture.ts';
import { overviewMaximum } from '../chart/detail-spans.ts';
import type { ReportFacts } from '../facts.ts';
import type { Block, Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

/** Nothing where no arc was struck. */
export function afterWeldingSection(facts: ReportFacts, times: Times): Section[] {
  const { after, passes, requirement } = facts.assessment;
  if (passes.length === 0) return [];
  const lines =
    after === undefined
      ? [{ name: 'Welding complete', text: 'not entered' }]
      : [
          ...afterLines(after, requirement.units, times.when),
          ...(after.postHeating === undefined ? [{ name: 'Post-heating', text: 'not asked for' }] : []),
          ...coolingLine(facts, times),
        ];
  const rows = lines.map(({ name, text }) => [name, text] as const);
  return [{ heading: 'After welding', blocks: [{ kind: 'pairs', rows }, ...course(facts, times)] }];
}

/** Where it is asked for, and where the chart of the whole job is too long to show it. */
function course(facts: ReportFacts, times: Times): Block[] {
  const { assessment, history } = facts;
  const { after } = assessment;
  if (after === undefined || history.to - after.completedAt < courseLeast) return [];
  if (after.postHeating === undefined && history.to - history.from <= overviewMaximum) return [];
  return chartModels(facts, after.completedAt, history.to, limitsAfter(facts)).map((model) =>
    chartPicture(model, facts, times, { height: 220, more: ', after the last arc' }),
  );
}

const courseLeast = 60_000;

/** What holds once the arc is out. */
const limitsAfter = (facts: ReportFacts): ChartLimit[] => {
  const { after, requirement, limits } = facts.assessment;
  const list: ChartLimit[] = [];
  const add = (name: string, value: MilliCelsius | undefined, wrongSide: ChartLimit['wrongSide']): void => {
    if (value !== undefined) list.push({ label: `${name} ${limitText(value, requirement.units)}`, value, wrongSide });
  };
  add('post-heating', after?.postHeating?.minimum, 'below');
  add('post-heating, at most', after?.postHeating?.maximum, 'above');
  add('covered down to', after?.cover?.until, 'below');
  return [...list, ...limitsOf(facts).filter(({ value }) => value === limits.highest)];
};

/** Of the zone, from the readings as they were judged. */
const coolingLine = ({ joint, history, assessment }: ReportFacts, times: Times): { name: string; text: string }[] => {
  const { after, requirement, limits } = assessment;
  const zone = new Set(joint.probes.filter(({ use }) => use === 'zone').map(({ id }) => id));
  const steps = history.series
    .filter(({ probe }) => zone.has(probe))
    .flatMap((each) => each.steps)
    .flatMap((step) => (step[1] === null || step[0] < after!.completedAt ? [] : [{ at: step[0], highest: step[3] }]))
    .toSorted((a, b) => a.at - b.at);
  const [first, last] = [steps[0], steps.at(-1)];
  if (first === undefined || last === undefined) return [];
  const hottest = (at: number): string => {
    const most = Math.max(...steps.filter((step) => step.at === at).map(({ highest }) => highest));
    return temperatureText(milliCelsius(most / 1000), requirement.units, { limit: limits.preheatMinimum });
  };
  const until = after?.cover?.until;
  const lastAbove = until === undefined ? undefined : steps.findLast(({ highest }) => highest > until);
  const below =
    until === undefined || lastAbove === undefined || lastAbove === last
      ? ''
      : `; all of it at ${limitText(until, requirement.units)} or below since about ${times.when((lastAbove.at + history.stepMilliseconds) as Instant)}`;
  const text = `hottest zone place ${hottest(first.at)} at ${times.when(first.at as Instant)}, ${hottest(last.at)} at ${times.when(last.at as Instant)}${below}`;
  return [{ name: 'Cooling', text }];
};
