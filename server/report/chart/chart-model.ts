/** What a chart of the job shows, before any drawing: axes, limits, lines and gaps, and what went on meanwhile. Pure. */
import type { Instant } from '../../measure/quantity.ts';
import type { UnitSystem } from '../../measure/units.ts';
import type { ProbeUse } from '../../weld/probe.ts';
import { limitText, shownDegrees } from '../../wording/temperature.ts';
import type { ReportFacts } from '../facts.ts';
import { offsetText } from '../paper.ts';
import { bandOf } from './band.ts';
import { type Course, courseOf, type Span } from './course.ts';
import { type Lanes, lanesOf } from './lanes.ts';
import { type TimeTick, timeTicks } from './time-axis.ts';
import { type ValueAxis, valueAxis } from './value-axis.ts';

export interface ChartModel extends Span {
  readonly title: string;
  /** The axis is in these; the values of lines and limits are thousandths of a degree Celsius throughout. */
  readonly units: UnitSystem;
  readonly timeTicks: readonly TimeTick[];
  /** "Local time, Europe/Warsaw (UTC+01:00)". */
  readonly timeCaption: string;
  readonly axis: ValueAxis;
  readonly lines: readonly ChartLine[];
  readonly limits: readonly ChartLimit[];
  /** Limits too far above the values to be drawn. */
  readonly limitsAbove: readonly string[];
  readonly lanes: Lanes;
}
export interface ChartLine extends Course {
  /** Of the probe, or of what else is drawn. */
  readonly name: string;
  /** Which dash, mark and colour: 0 to 7, each once in a chart. */
  readonly style: number;
  /** Lowest and highest by its uncertainty, of the one line that it is shown of: run by run, point by point. */
  readonly band?: readonly (readonly BandPoint[])[];
}
export type BandPoint = readonly [at: number, low: number, high: number];
export interface ChartLimit {
  readonly label: string;
  /** Thousandths of a degree. */
  readonly value: number;
  readonly wrongSide: 'below' | 'above';
}

/** Lines in one chart that can still be told apart without colour. */
const linesMaximum = 8;

/** One chart for each group of probes. Groups are even in size, so that no chart holds one line alone if it can be helped. */
export const chartModels = (
  facts: ReportFacts,
  from: Instant,
  to: Instant,
  limits: readonly ChartLimit[] = limitsOf(facts),
): ChartModel[] => groups(facts).map(({ title, probes }) => chartModel(facts, title, probes, { from, to }, limits));

const groups = ({ joint }: ReportFacts): { title: string; probes: string[] }[] => {
  const zone: readonly ProbeUse[] = ['zone', 'opposite face'];
  const [judged, others] = [true, false].map((wanted) =>
    joint.probes.filter(({ use }) => zone.includes(use) === wanted).map(({ id }) => id),
  ) as [string[], string[]];
  if (judged.length + others.length <= linesMaximum && judged.length > 0)
    return [{ title: 'All probes', probes: [...judged, ...others] }];
  return [
    ...chunks(judged).map((probes) => ({ title: 'Zone and opposite-face probes', probes })),
    ...chunks(others).map((probes) => ({ title: 'Other probes', probes })),
  ].map(({ title, probes }, _, all) => {
    const same = all.filter((each) => each.title === title);
    const number = same.findIndex((each) => each.probes === probes) + 1;
    return { title: same.length > 1 ? `${title}, ${number} of ${same.length}` : title, probes };
  });
};

const chunks = (probes: readonly string[]): string[][] => {
  const count = Math.ceil(probes.length / linesMaximum);
  const size = Math.ceil(probes.length / Math.max(1, count));
  return Array.from({ length: count }, (_, index) => probes.slice(index * size, (index + 1) * size));
};

const chartModel = (
  facts: ReportFacts,
  title: string,
  probes: readonly string[],
  span: Span,
  limits: readonly ChartLimit[],
): ChartModel => {
  const { series, stepMilliseconds } = facts.history;
  const banded = bandedOf(facts, probes);
  const lines = probes.map((name, style): ChartLine => {
    const found = series.find((each) => each.probe === name);
    const course = courseOf(found?.steps ?? [], stepMilliseconds, span);
    const band = name === banded && found !== undefined ? bandOf(found, course) : undefined;
    return { name, style, ...course, ...(band === undefined ? {} : { band }) };
  });
  return chartOf(facts, title, lines, limits, span);
};

/** The one that was coldest at most starts; sixteen bands in one chart could not be read. */
const bandedOf = ({ assessment }: ReportFacts, probes: readonly string[]): string | undefined => {
  const { passes, coldest } = assessment;
  const starts = (probe: string): number => passes.filter((each) => each.coldestAtStart?.probe === probe).length;
  const most = probes.toSorted((a, b) => starts(b) - starts(a))[0];
  if (most !== undefined && starts(most) > 0) return most;
  return probes.find((probe) => probe === coldest?.probe) ?? probes[0];
};

/** Lines of any origin between the same axes, with what went on in the job meanwhile. */
export const chartOf = (
  facts: ReportFacts,
  title: string,
  lines: readonly ChartLine[],
  limits: readonly ChartLimit[],
  span: Span,
): ChartModel => {
  const { zone } = facts;
  const { units } = facts.assessment.requirement;
  const shown = (value: number): number => shownDegrees(value, units) * 1000;
  const axis = valueAxis(
    lines.flatMap(({ runs }) => runs.flatMap((run) => run.map(([, value]) => shown(value)))),
    limits.map(({ value }) => shown(value)),
  );
  const [first, last] = [offsetText(span.from, zone), offsetText(span.to, zone)];
  return {
    ...span,
    title,
    units,
    timeTicks: timeTicks(span.from, span.to, zone),
    timeCaption: `Local time, ${zone} (${first === last ? first : `${first}, later ${last}`})`,
    axis,
    lines,
    limits: limits.filter(({ value }) => shown(value) / 1000 <= axis.highest),
    limitsAbove: limits.filter(({ value }) => shown(value) / 1000 > axis.highest).map(({ label }) => label),
    lanes: lanesOf(facts, span),
  };
};

export const limitsOf = ({ assessment }: ReportFacts): ChartLimit[] => {
  const { preheatMinimum, interpassMaximum, maintenanceMinimum, highest } = assessment.limits;
  const list: ChartLimit[] = [];
  const add = (name: string, value: typeof highest, wrongSide: ChartLimit['wrongSide']): void => {
    if (value !== undefined)
      list.push({ label: `${name} ${limitText(value, assessment.requirement.units)}`, value, wrongSide });
  };
  add('minimum preheat', preheatMinimum, 'below');
  if (maintenanceMinimum !== preheatMinimum) add('to be kept in breaks', maintenanceMinimum, 'below');
  add('maximum interpass', interpassMaximum, 'above');
  if (highest !== interpassMaximum) add('highest anywhere', highest, 'above');
  return list;
};
