/**
 * What the phase asks for, what comes next, and how long it takes where that can be known: a time that runs out, or a
 * place that moves towards its limit. No standard says how long a phase lasts; where neither is there, nothing is said.
 */
import type { MilliCelsius, Milliseconds } from '../../measure/quantity.ts';
import { afterStatus } from '../after/after-welding.ts';
import { ambientAsked } from '../ambient/check.ts';
import type { Phase } from '../assessment.ts';
import { breakByTrend } from '../break-by-trend.ts';
import { afterBreakCondition } from '../breaks/after-break.ts';
import { openChecks, pointsStatus } from '../checks/checks.ts';
import type { Condition, ConditionId } from '../condition.ts';
import { interpassNow } from '../interpass.ts';
import { hottestOf, minimumNow, onPart } from '../places.ts';
import { soakRule } from '../soak.ts';
import type { State } from '../state.ts';
import { timeTo, trendPerMinute } from '../trend.ts';
import type { Ahead, Required } from './ahead-status.ts';

type When = Ahead['when'];

export function aheadOf(state: State, phase: Phase, list: readonly Condition[]): Ahead {
  switch (phase) {
    case 'planned':
    case 'checking':
      return said([...missingChecks(state), 'heat on'], phase === 'planned' && checks(state) ? 'checking' : 'heating');
    case 'heating':
      return heating(state, list);
    case 'equalising':
      return said([...soaking(state, list), ...others(list)], 'ready', soakEnds(list));
    case 'ready':
      return said(kept(state), 'pass running', minimumLost(state));
    case 'pass running':
      return said(kept(state), 'between passes');
    case 'between passes':
      return betweenPasses(state, list);
    case 'interrupted':
      return interrupted(state, list);
    case 'before post-heating':
      return said(
        ['keep the minimum until post-heating', ...holds(state, 'post-heating')],
        'post-heating',
        minimumLost(state),
      );
    case 'post-heating':
    case 'cooling':
    case 'waiting':
    case 'complete':
      return afterTheArc(state, phase);
    case 'closed':
      return { required: [] };
  }
}

const said = (required: readonly Required[], next: Phase, when?: When): Ahead => ({
  required,
  next,
  ...(when === undefined ? {} : { when }),
});

const checks = (state: State): boolean => missingChecks(state).length > 0;

const missingChecks = (state: State): Required[] => [
  ...(ambientAsked(state) !== 'not asked' && state.ambient === undefined ? (['check the probes'] as const) : []),
  ...(openChecks(state, 'blocks').length + openChecks(state, 'warns').length > 0
    ? (['answer the checks'] as const)
    : []),
];

const holds = (state: State, before: 'post-heating' | 'closing'): Required[] =>
  pointsStatus(state).some((each) => each.kind === 'hold' && each.before === before && each.given === undefined)
    ? ['release the points']
    : [];

const find = (list: readonly Condition[], id: ConditionId): Condition | undefined =>
  list.find((each) => each.id === id && each.state !== 'met');

function heating(state: State, list: readonly Condition[]): Ahead {
  const time = find(list, 'minimum reached')?.timeToGo;
  const next = soakRule(state.joint) === 'opposite' && find(list, 'through thickness') === undefined;
  return said(
    ['every place at the minimum', ...soaking(state, list), ...others(list)],
    next ? 'ready' : 'equalising',
    time === undefined ? undefined : { what: 'comes', time, by: 'trend' },
  );
}

/** The waits and holds that are still to run. */
function soaking(state: State, list: readonly Condition[]): Required[] {
  const soak = find(list, 'soak') === undefined ? [] : [soakOf(state)];
  return [...soak, ...(find(list, 'through thickness') === undefined ? [] : (['warm through and held'] as const))];
}

const soakOf = (state: State): Required => (soakRule(state.joint) === 'wait' ? 'heat off and wait' : 'hold');

/** The longer of the two, and only where each that runs tells its time. */
function soakEnds(list: readonly Condition[]): When {
  const open = (['soak', 'through thickness'] as const).flatMap((id) => find(list, id) ?? []);
  const times = open.map(({ timeToGo }) => timeToGo);
  if (times.length === 0 || times.includes(undefined)) return undefined;
  return { what: 'comes', time: Math.max(...(times as number[])) as Milliseconds, by: 'time' };
}

const ofHeat: ReadonlySet<ConditionId> = new Set(['minimum reached', 'soak', 'through thickness', 'interpass maximum']);

const others = (list: readonly Condition[]): Required[] =>
  list.some(({ id, state, reason }) => !ofHeat.has(id) && state !== 'met' && reason !== 'no limit stated')
    ? ['other conditions']
    : [];

const kept = ({ limits }: State): Required[] => [
  ...(limits.preheatMinimum === undefined ? [] : (['keep the minimum'] as const)),
  ...(limits.highest === undefined ? [] : (['stay below the highest'] as const)),
];

function betweenPasses(state: State, list: readonly Condition[]): Ahead {
  const { state: stands, timeToWindow } = interpassNow(state);
  if (state.limits.interpassMaximum !== undefined && stands === 'too hot') {
    const when: When = timeToWindow === undefined ? undefined : { what: 'comes', time: timeToWindow, by: 'trend' };
    return said(['cool to the maximum', ...kept(state), ...others(list)], 'pass running', when);
  }
  const cold = find(list, 'minimum reached');
  if (cold === undefined) {
    const soak = soaking(state, list);
    const when = soak.length === 0 ? minimumLost(state) : soakEnds(list);
    return said([...kept(state), ...soak, ...others(list)], 'pass running', when);
  }
  const when: When = cold.timeToGo === undefined ? undefined : { what: 'comes', time: cold.timeToGo, by: 'trend' };
  return said(['every place at the minimum', ...soaking(state, list), ...others(list)], 'pass running', when);
}

function interrupted(state: State, list: readonly Condition[]): Ahead {
  const fall = breakByTrend(state);
  const keep: Required[] = state.limits.maintenanceMinimum === undefined ? [] : ['keep warm in the break'];
  const asks: Required[] = afterBreakCondition(state).some((each) => each.state !== 'met')
    ? ['what the break asks for']
    : [];
  const minimum: Required[] = find(list, 'minimum reached') === undefined ? [] : ['every place at the minimum'];
  const when: When = fall === undefined ? undefined : { what: 'ends', time: fall.time, by: 'trend' };
  return said([...keep, ...asks, ...minimum, ...soaking(state, list)], 'pass running', when);
}

/** Until the place that governs is below the minimum, if it falls on as it does. */
function minimumLost(state: State): When {
  const { governing, state: stands } = minimumNow(state);
  const limit = state.limits.preheatMinimum;
  const probe = state.probes.find((each) => each.probe.id === governing?.probe);
  if (limit === undefined || governing === undefined || probe === undefined || stands !== 'met') return undefined;
  const time = timeTo(limit, governing.temperature, trendPerMinute(probe));
  return time === undefined ? undefined : { what: 'ends', time, by: 'trend' };
}

function afterTheArc(state: State, phase: Phase): Ahead {
  const { postHeating, cover, heatTreatment, wait, spots } = afterStatus(state)!;
  const { procedure } = state.joint;
  const spot: Required[] = spots.some(({ examined }) => examined === undefined) ? ['examine the spots'] : [];
  const isToTreat = heatTreatment !== undefined && heatTreatment.begunAt === undefined;
  if (phase === 'post-heating') {
    if (postHeating?.state === 'done') return said(['end the post-heating'], 'cooling');
    const left = ((postHeating?.required ?? 0) - (postHeating?.held ?? 0)) as Milliseconds;
    return said(
      ['hold the post-heating'],
      'cooling',
      postHeating?.state === 'running' ? { what: 'comes', time: left, by: 'time' } : undefined,
    );
  }
  if (phase === 'cooling') {
    const until = wait.state === 'cooling' ? wait.to : cover?.until;
    const required: Required[] = [
      ...(cover?.state === 'on' ? (['keep the cover on'] as const) : []),
      ...(procedure?.coolingMaximumKelvinPerHour === undefined ? [] : (['cool no faster'] as const)),
      ...(isToTreat && heatTreatment.cooledAt === undefined ? (['cool before heat treatment'] as const) : []),
      ...(wait.state === 'cooling' ? (['cool to ambient'] as const) : []),
    ];
    return said(required, wait.state === 'not known' ? 'complete' : 'waiting', cooledTo(state, until));
  }
  const treat: Required[] = isToTreat
    ? [heatTreatment.cooledAt === undefined ? 'cool before heat treatment' : 'begin heat treatment']
    : [];
  if (phase === 'waiting' && wait.state === 'waiting') {
    const time = (wait.until - state.now) as Milliseconds;
    return said([...treat, 'no test yet', ...spot], 'complete', { what: 'comes', time, by: 'time' });
  }
  return said([...treat, ...spot, ...holds(state, 'closing'), 'close the joint'], 'closed');
}

function cooledTo(state: State, until: MilliCelsius | undefined): When {
  const hottest = hottestOf(state, onPart(state));
  const probe = state.probes.find((each) => each.probe.id === hottest?.probe);
  if (until === undefined || hottest === undefined || probe === undefined) return undefined;
  const time = timeTo(until, hottest.temperature, trendPerMinute(probe));
  return time === undefined ? undefined : { what: 'comes', time, by: 'trend' };
}
