/**
 * What lamp, horn and permission of a board say of a joint: one table, each row with its reason. Permission informs an
 * interlock that others build and answer for; it is no safety function, and nothing here starts heat or an arc.
 */
import type { HostFrame } from '../../firmware-protocol/codec/frame.ts';
import { alarmPriority, isRinging } from '../judgement/alarm-rules.ts';
import type { Alarm, Assessment } from '../judgement/assessment.ts';

type StateOf<Kind extends HostFrame['kind']> = Extract<HostFrame, { kind: Kind; state: unknown }>['state'];
export type Lamp = StateOf<'lamp'>;
export type Horn = StateOf<'horn'>;
export type Permission = StateOf<'permission'>;

export type Why = 'no open joint' | 'ready' | 'pass within limits' | 'waiting' | 'alarm' | 'pass outside' | 'not known';

export interface Shown {
  readonly lamp: Lamp;
  readonly horn: Horn;
  readonly permission: Permission;
  readonly why: Why;
}

/** From the calmest to what comes before all others where a board serves several joints. */
const table: readonly Shown[] = [
  // A dark lamp says that nothing is watched. It is the only row in which a board without heartbeats stays dark.
  { why: 'no open joint', lamp: 'off', horn: 'off', permission: 'withheld' },
  // The welder may look up and see it: steady is the only light that says go.
  { why: 'ready', lamp: 'on', horn: 'off', permission: 'given' },
  // Nothing is taken away in the middle of a pass that keeps its limits.
  { why: 'pass within limits', lamp: 'on', horn: 'off', permission: 'given' },
  // Heating, waiting, too hot to go on, an alarm that somebody has taken on: no hurry, and no arc.
  { why: 'waiting', lamp: 'slow', horn: 'off', permission: 'withheld' },
  // No horn of its own: the alarm that belongs to it sounds, and that one can be acknowledged.
  { why: 'pass outside', lamp: 'fast', horn: 'off', permission: 'withheld' },
  // Only what an acknowledgement silences may sound: a horn that nobody can silence is disconnected.
  { why: 'alarm', lamp: 'fast', horn: 'on', permission: 'withheld' },
  // Nothing is recorded or nothing fresh is judged. Silent, since no acknowledgement would be recorded either.
  { why: 'not known', lamp: 'fast', horn: 'off', permission: 'withheld' },
];

export const shownFor = (why: Why): Shown => table.find((row) => row.why === why)!;

/**
 * Of one joint, by its newest judgement. An alarm keeps the permission of a ready joint or a pass within limits: what
 * governs there is judged place by place, and a spare that broke must not stop a weld.
 */
export function shownOf(assessment: Assessment): Shown {
  const plain = shownFor(whyOf(assessment));
  if (assessment.phase === 'closed' || !assessment.alarms.some(isCalling)) return plain;
  return { ...shownFor('alarm'), permission: plain.permission };
}

/** One of low priority is for the screen: a horn for everything is a horn for nothing. */
const isCalling = (alarm: Alarm): boolean => isRinging(alarm) && alarmPriority(alarm) !== 'low';

/** Of all open joints of a board: the most urgent is shown, and permission is given only where each of them gives it. */
export function shownTogether(each: readonly Shown[]): Shown {
  const worst = each.toSorted((a, b) => rank(b) - rank(a))[0] ?? shownFor('no open joint');
  const withheld = each.find(({ permission }) => permission === 'withheld');
  return withheld === undefined ? worst : { ...worst, permission: 'withheld' };
}

const rank = ({ why }: Shown): number => table.findIndex((row) => row.why === why);

const whyOf = ({ phase, ready, conditions }: Assessment): Why => {
  if (phase === 'closed') return 'no open joint';
  if (phase !== 'pass running') return ready ? 'ready' : 'waiting';
  // While an arc burns the minimum and the highest temperature hold; soak and interpass were asked at its start. What
  // cannot be judged is not kept.
  const outside = conditions.some(
    ({ id, state, reason }) =>
      (id === 'minimum reached' || id === 'minimum stated' || id === 'highest temperature') &&
      state !== 'met' &&
      reason !== 'no limit stated',
  );
  return outside ? 'pass outside' : 'pass within limits';
};
