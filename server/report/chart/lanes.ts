/** What went on while the temperatures ran: passes, breaks, heat, alarms and findings, each as bars along the time of a chart. */
import { type Instant, instant } from '../../measure/quantity.ts';
import { alarmCourses, endOf, isMuted } from '../alarm-courses.ts';
import type { ReportFacts } from '../facts.ts';
import type { Span } from './course.ts';

export interface Bar extends Span {
  readonly label: string;
  /** Bars that run at once stand in lanes of their own. */
  readonly lane: number;
}

export interface Lanes {
  readonly passes: readonly Bar[];
  readonly breaks: readonly Bar[];
  readonly heat: readonly Bar[];
  /** Those that rang. */
  readonly alarms: readonly Bar[];
  readonly findings: readonly Bar[];
}

interface Told {
  readonly label: string;
  readonly from: Instant;
  /** Absent while it lasts. */
  readonly to?: Instant | undefined;
}

export const lanesOf = (facts: ReportFacts, span: Span): Lanes => {
  const { passes, breaks = [], findings } = facts.assessment;
  const within = (list: readonly Told[]): Bar[] => bars(list, facts.lastAt, span);
  return {
    passes: within(passes.map(({ pass, startedAt, endedAt }) => ({ label: pass, from: startedAt, to: endedAt }))),
    breaks: within(breaks.map(({ from, to, kept }) => ({ label: kept === 'below' ? 'too cold' : 'break', from, to }))),
    heat: within(heatSpans(facts)),
    alarms: within(
      alarmCourses(facts)
        .filter((course) => !isMuted(course))
        .map((course) => ({
          ...course.alarm,
          label: placeOf(course.alarm),
          from: course.alarm.since,
          to: endOf(course),
        })),
    ),
    findings: within(
      findings
        .filter(({ severity }) => severity !== 'remark')
        .map(({ probe, pass, from, to }) => ({ label: probe ?? pass ?? '', from, to })),
    ),
  };
};

const placeOf = ({
  probe,
  board,
  part,
}: {
  readonly probe?: string;
  readonly board?: string;
  readonly part?: string;
}) => probe ?? board ?? part ?? '';

const heatSpans = ({ timeline }: ReportFacts): Told[] => {
  const acts = timeline
    .flatMap(({ input }) =>
      input.type === 'act' && input.act.kind === 'heat'
        ? [{ state: input.act.state, at: instant(input.act.happenedAt ?? input.at) }]
        : [],
    )
    .toSorted((a, b) => a.at - b.at);
  return acts.map(({ state, at }, index) => ({ label: state, from: at, to: acts[index + 1]?.at }));
};

const bars = (list: readonly Told[], lastAt: Instant, span: Span): Bar[] => {
  const free: number[] = [];
  return list
    .map(({ label, from, to = lastAt }) => ({ label, from, to }))
    .filter(({ from, to }) => to >= span.from && from <= span.to)
    .toSorted((a, b) => a.from - b.from)
    .map(({ label, from, to }) => {
      const found = free.findIndex((until) => until <= from);
      const lane = found === -1 ? free.length : found;
      free[lane] = to;
      return { label, lane, from: instant(Math.max(from, span.from)), to: instant(Math.min(to, span.to)) };
    });
};
