/**
 * Has the heat gone through? Three rules by how the part is heated and where it is measured:
 * opposite the heat: the reading itself proves it, no wait; on the heated face with the heat off: wait
 * 2 min per 25 mm of the thickest part, and the reading at the end counts (ISO 13916 practice); heaters that
 * stay on: the procedure's hold counts, and where it states none the soak is not judged, unless the procedure asks
 * for the minimum through the thickness (through-thickness.ts), which can stand beside each of them or alone.
 */
import { after, type Instant, type Milliseconds, milliseconds, minutes } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import { note } from './findings.ts';
import { beginHold, holdDue, passedOf, settleHold, voidHold } from './hold.ts';
import { minimumNow, minimumProbes } from './places.ts';
import { rules } from './rules.ts';
import type { SoakStatus } from './soak-status.ts';
import { isRead, type State } from './state.ts';

export function soakRule(joint: Joint): SoakStatus['rule'] {
  if (isMeasuredOpposite(joint)) return 'opposite';
  if (joint.heating.whileWelding === 'off') return 'wait';
  if (joint.procedure?.soakHoldMinutes !== undefined) return 'hold';
  return joint.procedure?.throughThicknessHoldMinutes === undefined ? 'none' : 'through thickness';
}

/** How long the rule asks for; absent where it asks for no time or cannot be applied. */
export function soakRequired(joint: Joint, rule = soakRule(joint)): Milliseconds | undefined {
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
  if (heat === 'on') {
    if (state.soak.state !== 'not begun') voidSoak(state, 'heat on');
    return;
  }
  beginHold(state.soak, state.now);
  state.soak.risingCheckFrom = state.now;
  delete state.soak.atHalfTime;
}

export function settleSoak(state: State): void {
  const rule = soakRule(state.joint);
  const required = soakRequired(state.joint, rule);
  if (required === undefined) return;
  const minimum = minimumNow(state);
  const { soak } = state;
  const idle = soak.state === 'not begun' || soak.state === 'voided';
  if (rule === 'hold' && minimum.state === 'met' && idle) beginHold(soak, state.now);
  if (rule === 'wait') checkStillRising(state);
  settleHold(state, soak, required, { near: minimum.reason === 'within guard band', ...minimum });
  if (soak.state === 'voided') endRisingCheck(state);
}

/** Instants at which the soak changes by itself. */
export function soakDue(state: State): Instant[] {
  const { soak } = state;
  const required = soakRequired(state.joint);
  if (required === undefined) return [];
  const due = holdDue(soak, required);
  if (soak.risingCheckFrom !== undefined) {
    due.push(
      after(soak.risingCheckFrom, soak.atHalfTime === undefined ? rules.risingComparedFrom : rules.risingCheckedAfter),
    );
  }
  return due;
}

export function soakStatus(state: State): SoakStatus {
  const rule = soakRule(state.joint);
  if (rule === 'opposite' || rule === 'through thickness') return { rule, state: 'not needed' };
  if (rule === 'none') return { rule, state: 'not judged' };
  const { soak } = state;
  return {
    rule,
    state: soak.state,
    required: soakRequired(state.joint)!,
    done: passedOf(soak, state.now),
    ...(soak.since === undefined ? {} : { since: soak.since }),
    ...(soak.doneAt === undefined ? {} : { doneAt: soak.doneAt }),
    ...(soak.firstDoneAt === undefined ? {} : { firstDoneAt: soak.firstDoneAt }),
    ...(soak.voidedBy === undefined ? {} : { voidedBy: soak.voidedBy }),
    ...(soak.pausedNear === true ? { pausedNear: true } : {}),
  };
}

function voidSoak(state: State, voidedBy: 'heat on' | 'still rising'): void {
  voidHold(state.soak, voidedBy);
  endRisingCheck(state);
}

function endRisingCheck({ soak }: State): void {
  delete soak.risingCheckFrom;
  delete soak.atHalfTime;
}

/** With the heat really off, the heated face falls or flattens at once. */
function checkStillRising(state: State): void {
  const { soak } = state;
  const from = soak.risingCheckFrom;
  if (from === undefined) return;
  const heated = state.joint.heating.face;
  const watched = minimumProbes(state).filter(
    (each) => isRead(state, each) && (heated === 'both' || each.probe.place?.face === heated),
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
  endRisingCheck(state);
  if (rising === undefined) return;
  note(state, 'heat off but still rising', from, { probe: rising.probe.id, value: rising.good!.temperature });
  voidSoak(state, 'still rising');
}
