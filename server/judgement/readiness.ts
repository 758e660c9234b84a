/**
 * May the arc be struck? A list of conditions, each met, not met or not judged, with its number. "Not judged"
 * never counts as met. The list never blocks a welder; a pass begun outside it is named so.
 */
import type { Millikelvin, Milliseconds } from '../measure/quantity.ts';
import { ambientCondition } from './ambient/check.ts';
import { afterBreakCondition } from './breaks/after-break.ts';
import { checkConditions } from './checks/checks.ts';
import { type Kept, keepsEvenness, keepsMaximum } from './compare.ts';
import type { Condition } from './condition.ts';
import { hiddenExcess } from './distrust.ts';
import { stopped } from './hold.ts';
import { throughCondition } from './inside/through-thickness.ts';
import { interpassNow } from './interpass.ts';
import { calibrationGaps } from './measuring/register.ts';
import {
  bandAt,
  hottestOf,
  minimumNow,
  onPart,
  sidesWithoutZoneProbe,
  spreads,
  spreadsOfAll,
  withUse,
} from './places.ts';
import { soakRule, soakStatus } from './soak.ts';
import { hasBegunWelding, type State } from './state.ts';
import { timeTo, trendPerMinute } from './trend.ts';

export function conditions(state: State): Condition[] {
  return [
    minimumStated(state),
    answersGiven(state),
    zoneProbesPlaced(state),
    minimumReached(state),
    soak(state),
    ...throughCondition(state),
    ...(hasBegunWelding(state) ? [] : [evenness(state)]),
    ...(state.limits.highest === undefined ? [] : [highest(state)]),
    ...interpassMaximum(state),
    ...instrumentsCalibrated(state),
    ...ambientCondition(state),
    ...afterBreakCondition(state),
    ...checkConditions(state),
  ];
}

/** An evenness limit that nobody stated is shown, not asked for; all else has to be met. */
export const isReady = (list: readonly Condition[]): boolean =>
  list.every((each) => each.state === 'met' || each.reason === 'no limit stated');

/** The same for every reading that comes in: what can be said without the whole list is asked first. */
export const isReadyNow = (state: State): boolean =>
  (state.limits.throughThicknessHold === undefined || state.through.state === 'done') &&
  minimumNow(state).state === 'met' &&
  isReady(conditions(state));

function minimumStated(state: State): Condition {
  const limit = state.limits.preheatMinimum;
  return limit === undefined
    ? { id: 'minimum stated', state: 'not judged', reason: 'no minimum stated' }
    : { id: 'minimum stated', state: 'met', reason: 'ok', limit };
}

function answersGiven(state: State): Condition {
  const missing = state.requirement.warnings.filter((each) => each.wantsAnswer).map((each) => each.kind);
  return missing.length > 0
    ? { id: 'answers given', state: 'not met', reason: 'named answer missing', missing }
    : { id: 'answers given', state: 'met', reason: 'ok' };
}

function zoneProbesPlaced(state: State): Condition {
  const id = 'zone probes placed';
  if (withUse(state, 'zone').length === 0) return { id, state: 'not judged', reason: 'no zone probe' };
  const missing = sidesWithoutZoneProbe(state);
  return missing.length > 0
    ? { id, state: 'not judged', reason: 'side without zone probe at 75 mm', missing }
    : { id, state: 'met', reason: 'ok' };
}

function minimumReached(state: State): Condition {
  const minimum = minimumNow(state);
  const { governing } = minimum;
  const limit = state.limits.preheatMinimum;
  const governed = state.probes.find((each) => each.probe.id === governing?.probe);
  const timeToGo =
    minimum.state === 'not met' && governing !== undefined && limit !== undefined && governed !== undefined
      ? timeTo(limit, governing.temperature, trendPerMinute(governed))
      : undefined;
  return {
    id: 'minimum reached',
    state: minimum.state,
    reason: minimum.reason,
    ...(governing === undefined ? {} : { probe: governing.probe, value: governing.temperature }),
    ...(governing?.bound === undefined ? {} : { bound: governing.bound }),
    ...(limit === undefined ? {} : { limit }),
    ...(timeToGo === undefined ? {} : { timeToGo }),
    ...(minimum.missing.length > 0 ? { missing: minimum.missing } : {}),
  };
}

function soak(state: State): Condition {
  const id = 'soak';
  const status = soakStatus(state);
  const numbers = {
    ...(status.done === undefined ? {} : { value: status.done }),
    ...(status.required === undefined ? {} : { limit: status.required }),
  };
  switch (status.state) {
    case 'not needed':
      return {
        id,
        state: 'met',
        reason: status.rule === 'opposite' ? 'no soak needed' : 'judged through the thickness',
      };
    case 'not judged':
      return { id, state: 'not judged', reason: 'no hold stated' };
    case 'done':
      return { id, state: 'met', reason: 'ok', ...numbers };
    case 'paused':
      return { id, ...stopped(state.soak), ...numbers };
    case 'running': {
      const timeToGo = (status.required! - status.done!) as Milliseconds;
      const reason = status.rule === 'hold' ? 'holding' : 'waiting after heat off';
      return { id, state: 'not met', reason, timeToGo, ...numbers };
    }
    case 'not begun':
    case 'voided':
      return { id, ...notWaiting(state), ...numbers };
  }
}

function notWaiting(state: State): Pick<Condition, 'state' | 'reason'> {
  if (soakRule(state.joint) === 'hold') return { state: 'not met', reason: 'below minimum' };
  if (state.heat === 'not entered') return { state: 'not judged', reason: 'heat state not entered' };
  if (state.heat === 'on') return { state: 'not met', reason: 'heat is on' };
  const voided = state.soak.voidedBy;
  if (voided === 'still rising') return { state: 'not met', reason: 'face still rising' };
  if (voided === 'break') return { state: 'not met', reason: 'soak again after a break' };
  if (voided === 'guard band') return { state: 'not judged', reason: 'stopped within guard band' };
  return { state: 'not met', reason: voided === 'gap' ? 'paused by gap' : 'below minimum' };
}

function evenness(state: State): Condition {
  const id = 'evenness';
  const limit = state.limits.evennessMaximum;
  const widest = spreads(state).sort((a, b) => b.spread - a.spread)[0];
  const value = widest === undefined ? {} : { value: widest.spread };
  if (limit === undefined) return { id, state: 'not judged', reason: 'no limit stated', ...value };
  const hidden = spreadsOfAll(state).sort((a, b) => b.spread - a.spread)[0];
  const kept = (each: typeof hidden): boolean =>
    each === undefined || keepsEvenness(each.spread, limit, each.band ?? noBand) === 'kept';
  if (kept(widest) && !kept(hidden)) {
    return { id, state: 'not judged', reason: 'only an untrusted probe is above it', value: hidden!.spread, limit };
  }
  if (widest === undefined) return { id, state: 'not judged', reason: 'no trusted fresh reading', limit };
  return {
    id,
    ...stands(keepsEvenness(widest.spread, limit, widest.band ?? noBand), 'spread too large'),
    ...value,
    limit,
  };
}

const noBand = 0 as Millikelvin;

function stands(kept: Kept, broken: Condition['reason']): Pick<Condition, 'state' | 'reason'> {
  if (kept === 'kept') return { state: 'met', reason: 'ok' };
  return kept === 'broken'
    ? { state: 'not met', reason: broken }
    : { state: 'not judged', reason: 'within guard band' };
}

/** Asked for only where the procedure requires it. */
function instrumentsCalibrated(state: State): Condition[] {
  if (state.joint.procedure?.calibration !== 'required') return [];
  const id = 'instruments calibrated';
  const missing = calibrationGaps(state).map(({ instrument, probe }) => instrument ?? `wire of ${probe}`);
  return missing.length === 0
    ? [{ id, state: 'met', reason: 'ok' }]
    : [{ id, state: 'not judged', reason: 'calibration not shown', missing }];
}

function highest(state: State): Condition {
  const id = 'highest temperature';
  const limit = state.limits.highest!;
  const hottest = hottestOf(state, onPart(state), 'with its band');
  const hidden = hiddenExcess(state);
  if (
    hidden !== undefined &&
    (hottest === undefined || keepsMaximum(hottest.temperature, limit, bandAt(state, hottest)) === 'kept')
  ) {
    const numbers = { probe: hidden.probe, value: hidden.temperature, limit };
    return { id, state: 'not judged', reason: 'only an untrusted probe is above it', ...numbers };
  }
  if (hottest === undefined) return { id, state: 'not judged', reason: 'no trusted fresh reading', limit };
  const numbers = { probe: hottest.probe, value: hottest.temperature, limit };
  const band = bandAt(state, hottest);
  return { id, ...stands(keepsMaximum(hottest.temperature, limit, band), 'too hot'), ...numbers };
}

/** Between passes it has to be known; before the first there is no interpass temperature yet, and it is asked only where it is measured. */
function interpassMaximum(state: State): Condition[] {
  const id = 'interpass maximum';
  const limit = state.limits.interpassMaximum;
  if (limit === undefined) return [];
  const now = interpassNow(state);
  if (now.hidden !== undefined) {
    const { probe, temperature: value } = now.hidden;
    return [{ id, state: 'not judged', reason: 'only an untrusted probe is above it', probe, value, limit }];
  }
  if (now.state === 'not judged' && now.temperature === undefined) {
    return hasBegunWelding(state)
      ? [
          {
            id,
            state: 'not judged',
            reason: withUse(state, 'interpass').length > 0 ? 'no trusted fresh reading' : 'no interpass place',
            limit,
          },
        ]
      : [];
  }
  const bound = now.bound === undefined ? {} : { bound: now.bound };
  const numbers = { probe: now.probe!, value: now.temperature!, limit, ...bound };
  if (now.state === 'not judged') return [{ id, state: 'not judged', reason: 'within guard band', ...numbers }];
  return now.state === 'window'
    ? [{ id, state: 'met', reason: 'ok', ...numbers }]
    : [
        {
          id,
          state: 'not met',
          reason: 'too hot',
          ...numbers,
          ...(now.timeToWindow === undefined ? {} : { timeToGo: now.timeToWindow }),
        },
      ];
}
