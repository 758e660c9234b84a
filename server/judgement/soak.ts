/**
 * Has the heat gone through? Three rules by how the part is heated and where it is measured:
 * opposite the heat: the reading itself proves it, no wait; on the heated face with the heat off: wait
 * 2 min per 25 mm of the thickest part, and the reading at the end counts (ISO 13916 practice); heaters that
 * stay on: the procedure's hold counts, and where it states none the soak is not judged.
 */
import { after, type Instant, type Milliseconds, milliseconds, minutes } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import type { SoakStatus } from './assessment.ts';
import { note } from './findings.ts';
import { minimumNow, minimumProbes } from './places.ts';
import { rules } from './rules.ts';
import { isTrusted, type State } from './state.ts';

export function soakRule(joint: Joint): SoakStatus['rule'] {
  if (isMeasuredOpposite(joint)) return 'opposite';
  if (joint.heating.whileWelding === 'off') return 'wait';
  return joint.procedure?.soakHoldMinutes === undefined ? 'none' : 'hold';
}

/** How long the rule asks for; absent where it asks for no time or cannot be applied. */
export function soakRequired(joint: Joint): Milliseconds | undefined {
  const rule = soakRule(joint);
  if (rule === 'wait') {
    const thickest = Math.max(...joint.parts.map((part) => part.thicknessMillimetres));
    return milliseconds(thickest * rules.waitPerMillimetre);
  }
  return rule === 'hold' ? minutes(joint.procedure!.soakHoldMinutes!) : undefined;
}

/** Every side that has a zone probe is also measured on the face that is not heated. */
function isMeasuredOpposite(joint: Joint): boolean {
  const { face } = joint.heating;
  if (face === 'both') return false;
  const measuring = joint.probes.filter((probe) => probe.use === 'zone' || probe.use === 'opposite face');
  const sides = new Set(measuring.map((probe) => probe.place?.side));
  return (
    sides.size > 0 &&
    [...sides].every((side) => measuring.some(({ place }) => place?.side === side && place?.face !== face))
  );
}

/** Heat on voids a wait; heat off begins one. The other rules do not hang on it. */
export function soakOnHeat(state: State, heat: 'on' | 'off'): void {
  if (soakRule(state.joint) !== 'wait') return;
  const { soak } = state;
  if (heat === 'on') {
    if (soak.state !== 'not begun') voidSoak(state, 'heat on');
    return;
  }
  state.soak = { state: 'running', done: 0 as Milliseconds, since: state.now, risingCheckFrom: state.now };
}

export function settleSoak(state: State): void {
  const rule = soakRule(state.joint);
  const required = soakRequired(state.joint);
  if (required === undefined) return;
  const minimum = minimumNow(state);
  if (rule === 'hold') beginOrRestartHold(state, minimum.state === 'met');
  if (rule === 'wait') checkStillRising(state);

  const { soak } = state;
  const counts = soak.state === 'running' || soak.state === 'paused' || soak.state === 'done';
  if (counts && minimum.below) voidSoak(state, 'below minimum');
  if (soak.state === 'running' && minimum.state === 'not judged') pause(state, minimum.missing);
  if (soak.state === 'paused') {
    if (state.now - soak.pausedSince! > rules.gapPauses) voidSoak(state, 'gap');
    else if (minimum.state === 'met') resume(state);
  }
  if (soak.state === 'running' && soak.done + (state.now - soak.since!) >= required) {
    soak.state = 'done';
    soak.done = required;
    soak.doneAt = state.now;
  }
}

/** Instants at which the soak changes by itself. */
export function soakDue(state: State): Instant[] {
  const { soak } = state;
  const required = soakRequired(state.joint);
  if (required === undefined) return [];
  const due: Instant[] = [];
  if (soak.state === 'running') due.push(after(soak.since!, required - soak.done));
  if (soak.state === 'paused') due.push(after(soak.pausedSince!, rules.gapPauses + 1));
  if (soak.risingCheckFrom !== undefined) {
    due.push(
      after(soak.risingCheckFrom, soak.atHalfTime === undefined ? rules.risingComparedFrom : rules.risingCheckedAfter),
    );
  }
  return due;
}

export function soakStatus(state: State): SoakStatus {
  const rule = soakRule(state.joint);
  if (rule === 'opposite') return { rule, state: 'not needed' };
  if (rule === 'none') return { rule, state: 'not judged' };
  const { soak } = state;
  const running = soak.state === 'running' ? state.now - soak.since! : 0;
  return {
    rule,
    state: soak.state,
    required: soakRequired(state.joint)!,
    done: (soak.done + running) as Milliseconds,
    ...(soak.since === undefined ? {} : { since: soak.since }),
    ...(soak.doneAt === undefined ? {} : { doneAt: soak.doneAt }),
    ...(soak.voidedBy === undefined ? {} : { voidedBy: soak.voidedBy }),
  };
}

function beginOrRestartHold(state: State, met: boolean): void {
  const { soak } = state;
  if (met && (soak.state === 'not begun' || soak.state === 'voided')) {
    state.soak = { state: 'running', done: 0 as Milliseconds, since: state.now };
  }
}

function voidSoak(state: State, voidedBy: NonNullable<SoakStatus['voidedBy']>): void {
  state.soak.state = 'voided';
  state.soak.voidedBy = voidedBy;
  state.soak.done = 0 as Milliseconds;
  for (const key of ['since', 'pausedSince', 'doneAt', 'risingCheckFrom', 'atHalfTime'] as const)
    delete state.soak[key];
}

/** Only time that is covered by readings counts: the pause begins at the last good reading of the place that is missing. */
function pause(state: State, missing: readonly string[]): void {
  const { soak } = state;
  const lastGood = state.probes
    .filter((each) => missing.includes(each.probe.id))
    .map((each) => each.good?.at ?? soak.since!);
  const from = Math.max(soak.since!, Math.min(state.now, ...lastGood)) as Instant;
  soak.done = (soak.done + (from - soak.since!)) as Milliseconds;
  soak.state = 'paused';
  soak.pausedSince = from;
}

function resume(state: State): void {
  state.soak.state = 'running';
  state.soak.since = state.now;
  delete state.soak.pausedSince;
}

/** With the heat really off, the heated face falls or flattens at once. */
function checkStillRising(state: State): void {
  const { soak } = state;
  const from = soak.risingCheckFrom;
  if (from === undefined) return;
  const heated = state.joint.heating.face;
  const watched = minimumProbes(state).filter(
    (each) => isTrusted(state, each) && (heated === 'both' || each.probe.place?.face === heated),
  );
  if (soak.atHalfTime === undefined && state.now >= after(from, rules.risingComparedFrom)) {
    soak.atHalfTime = Object.fromEntries(watched.map((each) => [each.probe.id, each.good!.temperature]));
  }
  if (soak.atHalfTime === undefined || state.now < after(from, rules.risingCheckedAfter)) return;
  const before = soak.atHalfTime;
  const rising = watched.find((each) => {
    const half = before[each.probe.id];
    return half !== undefined && each.good!.temperature - half > rules.risingMillikelvin;
  });
  delete soak.risingCheckFrom;
  delete soak.atHalfTime;
  if (rising === undefined) return;
  note(state, 'heat off but still rising', from, { probe: rising.probe.id, value: rising.good!.temperature });
  voidSoak(state, 'still rising');
}
