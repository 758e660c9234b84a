/**
 * From the last arc to the test: post-heating, cooling, heat treatment, the wait. Everything here counts from
 * "welding complete"; another arc takes that back, and all that was counted from it begins anew.
 */
import { elapsed, type Instant, type Milliseconds, milliCelsius } from '../../measure/quantity.ts';
import { waitingHours } from '../../metallurgy/after-welding.ts';
import type { AfterAct } from '../../weld/entry.ts';
import { isWeldedOn } from '../../weld/probe.ts';
import type { Phase } from '../assessment.ts';
import { noteStage } from '../checks/checks.ts';
import { note } from '../findings.ts';
import type { State } from '../state.ts';
import { nothingAfter } from './after-state.ts';
import type { AfterStatus, WaitStatus } from './after-status.ts';
import {
  endFall,
  endPostHeating,
  notePostHeatingMissing,
  postHeatingDue,
  postHeatingStatus,
  settlePostHeating,
  takePostHeating,
} from './post-heating.ts';
import { forgetRates, settleRates } from './rates.ts';
import { type ZoneNow, zoneStaysWithin } from './zone-now.ts';

export function takeAfterAct(state: State, act: AfterAct): void {
  const { after } = state;
  switch (act.kind) {
    case 'welding complete':
      after.completedAt ??= state.now;
      forgetRates(state);
      return;
    case 'post-heating':
      if (act.state === 'begun') noteStage(state, 'post-heating');
      takePostHeating(state, act.state);
      forgetRates(state);
      return;
    case 'cover':
      after.cover = act.state;
      if (act.state === 'off') noteUncovered(state);
      return;
    case 'heat treatment begun':
      noteHeatTreatment(state);
      after.heatTreatmentAt = state.now;
      return;
    case 'testing begun':
      noteTested(state);
      return;
    case 'spot examined':
      after.spots = after.spots.filter(({ probe }) => probe !== act.probe);
      after.spots.push({
        probe: act.probe,
        examined: { method: act.method, result: act.result, at: state.now },
      });
      if (act.result === 'indication') note(state, 'indication at a probe spot', state.now, { probe: act.probe });
  }
}

/** An arc burns: welding is not complete, and what came after it is to be done again. */
export function arcAgain(state: State): void {
  const { after } = state;
  if (after.postHeating !== undefined && after.postHeating.endedAt === undefined) endPostHeating(state);
  endFall(state);
  forgetRates(state);
  state.after = { ...nothingAfter(), spots: after.spots };
}

export function settleAfter(state: State): void {
  settleRates(state);
  settlePostHeating(state);
  const { after, joint } = state;
  if (after.completedAt === undefined) return;
  const { procedure } = joint;
  const coolTo = procedure?.coolBeforeHeatTreatmentCelsius;
  if (coolTo !== undefined && after.cooledAt === undefined && isWithin(zoneStaysWithin(state, milliCelsius(coolTo))))
    after.cooledAt = state.now;
  const ambient = procedure?.ambientCelsius;
  if (ambient !== undefined && after.ambientAt === undefined && isCooling(state)) {
    if (isWithin(zoneStaysWithin(state, milliCelsius(ambient)))) after.ambientAt = state.now;
  }
}

export const afterDue = (state: State): Instant[] => postHeatingDue(state);

/** What was asked for and is not there when the joint is closed. */
export function closeAfter(state: State): void {
  if (state.passes.length === 0) return;
  endPostHeating(state);
  notePostHeatingMissing(state);
  const { procedure } = state.joint;
  if (procedure?.coveredToCelsius !== undefined && state.after.cover === undefined)
    note(state, 'covered cooling not entered', state.now, { limit: milliCelsius(procedure.coveredToCelsius) });
  for (const { probe, examined } of spotsOf(state))
    if (examined === undefined) note(state, 'probe spot not examined', state.now, { probe });
}

export function afterStatus(state: State): AfterStatus | undefined {
  const { after, joint } = state;
  if (after.completedAt === undefined) return undefined;
  const { procedure } = joint;
  const postHeating = postHeatingStatus(state);
  const coverUntil = procedure?.coveredToCelsius;
  const coolTo = procedure?.coolBeforeHeatTreatmentCelsius;
  const latest = latestHeatTreatment(state);
  return {
    completedAt: after.completedAt,
    ...(postHeating === undefined ? {} : { postHeating }),
    ...(coverUntil === undefined
      ? {}
      : { cover: { state: after.cover ?? 'not entered', until: milliCelsius(coverUntil) } }),
    ...(coolTo === undefined
      ? {}
      : {
          heatTreatment: {
            coolTo: milliCelsius(coolTo),
            ...(after.cooledAt === undefined ? {} : { cooledAt: after.cooledAt }),
            ...(latest === undefined ? {} : { latestAt: latest }),
            ...(after.heatTreatmentAt === undefined ? {} : { begunAt: after.heatTreatmentAt }),
          },
        }),
    wait: waitStatus(state),
    spots: spotsOf(state),
  };
}

export const isWeldingComplete = ({ after }: State): boolean => after.completedAt !== undefined;

/** The minimum preheat still holds: post-heating is asked for and has not begun. */
export const isKeptForPostHeating = ({ after, joint }: State): boolean =>
  joint.postHeating !== undefined && after.postHeating === undefined;

/** Of a joint whose last arc is out. */
export function phaseAfter(state: State): Phase | undefined {
  if (state.after.completedAt === undefined) return undefined;
  const postHeating = postHeatingStatus(state);
  if (postHeating !== undefined && postHeating.endedAt === undefined)
    return postHeating.begunAt === undefined ? 'before post-heating' : 'post-heating';
  const wait = waitStatus(state);
  if (wait.state === 'cooling' || isCovered(state)) return 'cooling';
  return wait.state === 'waiting' ? 'waiting' : 'complete';
}

function waitStatus(state: State): WaitStatus {
  const hours = waitingHours(state.joint);
  if (hours === undefined) return { state: 'not known' };
  const { completedAt, ambientAt } = state.after;
  const ambient = state.joint.procedure?.ambientCelsius;
  if (ambient !== undefined && ambientAt === undefined) return { state: 'cooling', hours, to: milliCelsius(ambient) };
  const from = ambient === undefined ? completedAt! : ambientAt!;
  const until = (from + hours * 3_600_000) as Instant;
  return { state: state.now >= until ? 'over' : 'waiting', hours, from, until };
}

const isWithin = (zone: ZoneNow): boolean => zone.state === 'met';

/** The heat that was asked for is over; what cools now cools for good. */
const isCooling = ({ joint, after }: State): boolean =>
  joint.postHeating === undefined || after.postHeating?.endedAt !== undefined;

/** Under cover, and still hotter than where it may come off. */
function isCovered(state: State): boolean {
  const until = state.joint.procedure?.coveredToCelsius;
  return until !== undefined && state.after.cover === 'on' && !isWithin(zoneStaysWithin(state, milliCelsius(until)));
}

function noteUncovered(state: State): void {
  const until = state.joint.procedure?.coveredToCelsius;
  if (until === undefined || state.after.completedAt === undefined) return;
  const limit = milliCelsius(until);
  const zone = zoneStaysWithin(state, limit);
  if (zone.below) {
    const hottest = zone.governing!;
    note(state, 'uncovered too warm', state.now, { probe: hottest.probe, value: hottest.temperature, limit });
  } else if (!isWithin(zone)) note(state, 'uncovering not judged', state.now, { limit });
}

function noteHeatTreatment(state: State): void {
  const { after, joint } = state;
  const coolTo = joint.procedure?.coolBeforeHeatTreatmentCelsius;
  if (after.completedAt === undefined) return;
  if (coolTo !== undefined && after.cooledAt === undefined) {
    const limit = milliCelsius(coolTo);
    const zone = zoneStaysWithin(state, limit);
    if (zone.below) {
      const { probe, temperature: value } = zone.governing!;
      note(state, 'not cooled before heat treatment', state.now, { probe, value, limit });
    } else note(state, 'cooling before heat treatment not judged', state.now, { limit });
  }
  const latest = latestHeatTreatment(state);
  if (latest !== undefined && state.now > latest) {
    const value = elapsed(after.completedAt, state.now);
    note(state, 'heat treatment late', state.now, { value, limit: elapsed(after.completedAt, latest) });
  }
}

function latestHeatTreatment({ after, joint }: State): Instant | undefined {
  const hours = joint.procedure?.heatTreatmentWithinHours;
  return hours === undefined || after.completedAt === undefined
    ? undefined
    : ((after.completedAt + Math.round(hours * 3_600_000)) as Instant);
}

function noteTested(state: State): void {
  const wait = waitStatus(state);
  if (state.after.completedAt === undefined || wait.state === 'not known' || wait.state === 'over') return;
  const value = (wait.state === 'cooling' ? 0 : elapsed(wait.from, state.now)) as Milliseconds;
  note(state, 'tested before the waiting time', state.now, { value, limit: wait.hours * 3_600_000 });
}

/** Empty where the procedure does not ask for it. */
function spotsOf({ joint, after }: State): AfterStatus['spots'] {
  if (joint.procedure?.probeSpots === undefined) return [];
  return joint.probes
    .filter(isWeldedOn)
    .map(({ id }) => after.spots.find(({ probe }) => probe === id) ?? { probe: id });
}
