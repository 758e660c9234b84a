/** A remark where a pass begins with a reading so near a limit that its uncertainty reaches across it. Simple acceptance only. */
import type { MilliCelsius } from '../../measure/quantity.ts';
import type { Condition, ConditionId } from '../condition.ts';
import { note } from '../findings.ts';
import type { State } from '../state.ts';
import { isWithinUncertainty } from './guard.ts';
import { isUncertaintyKept } from './judged-reading.ts';

export function noteNearLimit(state: State, condition: Condition, pass: string): void {
  const { id, probe, value, limit } = condition;
  if (state.joint.procedure?.decisionRule === 'guarded' || !compared.has(id)) return;
  if (probe === undefined || value === undefined || limit === undefined) return;
  const byProbe = state.probes.find((each) => each.probe.id === probe)?.good;
  const byHand = isUncertaintyKept(state) ? state.hand.findLast(({ instrument }) => instrument === probe) : undefined;
  const reading = byProbe ?? byHand;
  if (reading === undefined || !isWithinUncertainty(value as MilliCelsius, limit as MilliCelsius, reading)) return;
  note(state, 'within uncertainty', state.now, { pass, probe, value, limit });
}

/** Conditions in which one reading stands against one limit. */
const compared: ReadonlySet<ConditionId> = new Set<ConditionId>([
  'minimum reached',
  'highest temperature',
  'interpass maximum',
]);
