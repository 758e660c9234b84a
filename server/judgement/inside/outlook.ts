/**
 * What lies ahead, from the present: when each part is warm through and held, and how long a break may last. A
 * forecast for people; nothing is judged by it. It costs some milliseconds a part, so that it is made every few
 * seconds and not with every reading.
 */
import { coolingOutlook } from '../../conduction/break.ts';
import type { FarLoss } from '../../conduction/far-loss.ts';
import { isRefusal } from '../../conduction/refusal.ts';
import { type Section, sectionNow } from '../../conduction/section.ts';
import { type FaceCourse, type WarmingOutlook, warmingOutlook } from '../../conduction/warming.ts';
import { type MilliCelsius, type Milliseconds, milliCelsius } from '../../measure/quantity.ts';
import { breakByTrend } from '../break-by-trend.ts';
import { passedOf } from '../hold.ts';
import { rules } from '../rules.ts';
import type { State } from '../state.ts';
import { trendPerMinute } from '../trend.ts';
import { farLossFound, type SectionState } from './section-state.ts';
import type { Outlook, SectionOutlook } from './section-status.ts';
import { holdAsked, sectionStanding } from './through-thickness.ts';

export function outlookOf(state: State): Outlook {
  const fall = breakByTrend(state);
  return {
    at: state.now,
    sections: state.sections.flatMap((each) => outlookThrough(state, each)),
    ...(fall === undefined ? {} : { breakByTrend: fall }),
  };
}

/** Nothing of a section that is not judged now, or whose course leaves what the room can compute. */
function outlookThrough(state: State, each: SectionState): SectionOutlook[] {
  const { section, place } = each;
  const minimum = state.limits.preheatMinimum;
  const { state: stands, reason } = sectionStanding(state, each);
  const isKnown = stands !== 'not judged' || reason === 'within guard band';
  if (section === undefined || minimum === undefined || !isKnown) return [];
  const now = sectionNow(section);
  const course = courseAhead(state, each, now);
  const found = farLossFound(each);
  const warming = state.through.state === 'done' ? warm : warmingOutlook(now, course, targetOf(state, minimum), found);
  if (isRefusal(warming)) return [];
  const { earliest, likely, latest, ...reaching } = warming;
  return [
    {
      part: place.part,
      course: course.kind === 'left' ? 'heat off' : course.kind,
      ...(course.kind === 'rising' && course.toCelsius !== undefined ? { upTo: milliCelsius(course.toCelsius) } : {}),
      ready: {
        ...(earliest === undefined ? {} : { earliest }),
        ...(likely === undefined ? {} : { likely }),
        ...(latest === undefined ? {} : { latest }),
      },
      ...reaching,
      ...coolsBelow(state, now, found),
    },
  ];
}

const zero = 0 as Milliseconds;
const warm: WarmingOutlook = { earliest: zero, likely: zero, latest: zero, reaches: 'always', insulatedHelps: false };

const targetOf = (state: State, minimum: MilliCelsius) => ({
  celsius: minimum / 1000,
  holdMilliseconds: Math.max(0, holdAsked(state) - passedOf(state.through, state.now)),
});

/** With the heat off the face is left; else it goes on as it rises now, to the set point where one is stated. */
function courseAhead(state: State, { place }: SectionState, now: Section): FaceCourse {
  if (state.heat === 'off') return { kind: 'left' };
  const drivers = state.probes.filter(({ probe }) => place.frontProbes.some(({ id }) => id === probe.id));
  const trends = drivers.map(trendPerMinute).filter((each) => each !== undefined);
  const slowest = Math.min(...trends);
  if (trends.length === 0 || slowest < rules.trendWorthTelling) return { kind: 'held' };
  const { highest } = state.limits;
  const end = state.joint.heating.setPointCelsius ?? (highest === undefined ? undefined : highest / 1000);
  if (end !== undefined && end <= now.likely.field.frontCelsius) return { kind: 'held' };
  return { kind: 'rising', kelvinPerMinute: slowest / 1000, ...(end === undefined ? {} : { toCelsius: end }) };
}

function coolsBelow(state: State, now: Section, found: FarLoss | undefined): Pick<SectionOutlook, 'coolsBelow'> {
  const limit = state.limits.maintenanceMinimum;
  if (limit === undefined) return {};
  const cooling = coolingOutlook(now, limit / 1000, found);
  if (isRefusal(cooling)) return {};
  const { within: _within, ...times } = cooling;
  return { coolsBelow: { ...times, limit } };
}
