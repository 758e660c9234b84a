/** The state as one plain picture: phase, conditions, probes, passes, findings, alarms, verdict. */
import type { Instant, Millikelvin } from '../measure/quantity.ts';
import { afterStatus, isWeldingComplete } from './after/after-welding.ts';
import { ambientStatus } from './ambient/check.ts';
import { arcStatus } from './arc-watch.ts';
import type { Assessment } from './assessment.ts';
import { breaksStatus } from './breaks/after-break.ts';
import { checksStatus, pointsStatus } from './checks/checks.ts';
import { sectionStatus } from './inside/section-view.ts';
import { throughStatus } from './inside/through-thickness.ts';
import { interpassNow } from './interpass.ts';
import { registerStatus } from './measuring/register.ts';
import { twinAsked, twinsRead } from './measuring/twin-reading.ts';
import type { PassStatus } from './pass-status.ts';
import { withDisposition } from './people/deviations.ts';
import { aheadOf } from './phases/ahead.ts';
import { phaseOf } from './phases/phase.ts';
import { coldestOf, hottestOf, minimumNow, minimumProbes, onPart, spreads } from './places.ts';
import type { ProbeStatus } from './probe-status.ts';
import { conditions, isReady } from './readiness.ts';
import { expandedFactor } from './rules.ts';
import { withShelving } from './shelving.ts';
import { soakStatus } from './soak.ts';
import {
  type GoodReading,
  hasBegunWelding,
  isFresh,
  isTrusted,
  type PassState,
  type ProbeState,
  type State,
} from './state.ts';
import { shown, struckPasses } from './struck-passes.ts';
import { trendPerMinute } from './trend.ts';
import { verdictFrom } from './verdict-from.ts';

export function assess(state: State): Assessment {
  const list = conditions(state);
  const ready = state.closedAt === undefined && !isWeldingComplete(state) && isReady(list);
  const minimum = minimumNow(state);
  const coldest = minimum.governing ?? coldestOf(state, minimumProbes(state));
  const hottest = hottestOf(state, onPart(state));
  const ambientCheck = ambientStatus(state);
  const after = afterStatus(state);
  const phase = phaseOf(state, list, ready);
  const arc = arcStatus(state);
  const { by: _by, hidden: _hidden, ...interpass } = interpassNow(state);
  return {
    at: state.now,
    openedAt: state.openedAt,
    phase,
    ahead: aheadOf(state, phase, list),
    source: state.source,
    heat: state.heat,
    ...(state.heatSince === undefined ? {} : { heatSince: state.heatSince }),
    limits: state.limits,
    requirement: state.requirement,
    probes: state.probes.map((each) => probeStatus(state, each)),
    ...(state.register.length === 0 ? {} : { instruments: registerStatus(state) }),
    ...(state.hand.length === 0 ? {} : { handReadings: state.hand.length }),
    ...twins(state),
    ...(ambientCheck === undefined ? {} : { ambientCheck }),
    ...(coldest === undefined ? {} : { coldest }),
    ...(hottest === undefined ? {} : { hottest }),
    spread: spreads(state),
    conditions: list,
    ready,
    soak: soakStatus(state),
    sections: state.sections.map((each) => sectionStatus(state, each)),
    throughThickness: throughStatus(state),
    interpass,
    ...(state.breaks.list.length === 0 ? {} : { breaks: breaksStatus(state) }),
    passes: state.passes.map((each) => passStatus(state, each)),
    ...(arc === undefined ? {} : { arc }),
    ...(state.struck.length === 0 ? {} : { struckPasses: struckPasses(state) }),
    ...checksNow(state),
    ...(after === undefined ? {} : { after }),
    findings: state.findings.map((each) => withDisposition(state, each)),
    alarms: state.alarms.map((each) => withShelving(state, each)),
    shelvings: [...state.shelvings],
    verdict: verdictFrom(state.findings, hasBegunWelding(state)),
    scope: scopeOf(state),
    ...(state.minimumFirstReachedAt === undefined ? {} : { minimumFirstReachedAt: state.minimumFirstReachedAt }),
  };
}

function checksNow(state: State): Pick<Assessment, 'checks' | 'points'> {
  const [checks, points] = [checksStatus(state), pointsStatus(state)];
  return { ...(checks.length === 0 ? {} : { checks }), ...(points.length === 0 ? {} : { points }) };
}

function twins(state: State): Pick<Assessment, 'twinAsked' | 'twins'> {
  const asked = twinAsked(state);
  const read = twinsRead(state);
  return { ...(asked === undefined ? {} : { twinAsked: asked }), ...(read.length === 0 ? {} : { twins: read }) };
}

const passStatus = (
  state: State,
  { corrections, handRound: _handRound, nextReadingAt, ...pass }: PassState,
): PassStatus => ({
  ...pass,
  ...(nextReadingAt === undefined || pass.endedAt !== undefined ? {} : { nextReadingAt }),
  ...(corrections === undefined ? {} : { corrections: shown(state, corrections, pass.pass) }),
});

function probeStatus(state: State, each: ProbeState): ProbeStatus {
  const { probe, good, lastQuality } = each;
  const trend = trendPerMinute(each);
  const showsGood = lastQuality === 'good' && good !== undefined;
  const at: Instant | undefined = showsGood ? good.at : each.lastAt;
  return {
    probe: probe.id,
    use: probe.use,
    ...(probe.place === undefined ? {} : { place: probe.place }),
    ...(lastQuality === undefined ? {} : { quality: lastQuality }),
    ...(showsGood ? shownOf(good) : {}),
    ...(at === undefined ? {} : { measuredAt: at }),
    fresh: isFresh(state, each),
    trusted: isTrusted(state, each),
    ...(each.distrusted === undefined ? {} : { distrusted: each.distrusted }),
    ...(trend === undefined || !isFresh(state, each) ? {} : { trendPerMinute: trend }),
    required: probe.use === 'zone' || probe.use === 'opposite face',
  };
}

const shownOf = ({ temperature, correction, standardUncertainty }: GoodReading) => ({
  temperature,
  ...(correction === undefined ? {} : { correction }),
  ...(standardUncertainty === undefined
    ? {}
    : { expandedUncertainty: (expandedFactor * standardUncertainty) as Millikelvin }),
});

const throughScope = ({ limits }: State): string[] =>
  limits.throughThicknessHold === undefined ? [] : ['minimum through the thickness'];

function scopeOf(state: State): string[] {
  return [
    'highest temperature',
    'probes',
    ...(hasBegunWelding(state)
      ? ['minimum at each pass', 'soak', ...throughScope(state), 'passes']
      : ['no pass entered: minimum at the arc, soak and passes are not judged']),
    ...(hasBegunWelding(state) && state.limits.interpassMaximum !== undefined ? ['maximum interpass'] : []),
    ...(hasBegunWelding(state) && state.joint.procedure?.qualification !== undefined ? ['qualified range'] : []),
  ];
}
