/** The phase is derived from what was entered and read; nobody sets it. */
import { phaseAfter } from '../after/after-welding.ts';
import type { Phase } from '../assessment.ts';
import { openBreak } from '../breaks/breaks.ts';
import { hasChecked } from '../checks/checks.ts';
import type { Condition } from '../condition.ts';
import { hasBegunWelding, isPassRunning, type State } from '../state.ts';
import { isWarming } from '../trend.ts';

export function phaseOf(state: State, list: readonly Condition[], ready: boolean): Phase {
  if (state.closedAt !== undefined) return 'closed';
  if (isPassRunning(state)) return 'pass running';
  const after = phaseAfter(state);
  if (after !== undefined) return after;
  if (hasBegunWelding(state)) return openBreak(state) === undefined ? 'between passes' : 'interrupted';
  if (ready) return 'ready';
  const minimum = list.find((each) => each.id === 'minimum reached');
  const soaking = state.soak.state === 'running' || state.soak.state === 'paused';
  if (minimum?.state === 'met' || soaking) return 'equalising';
  if (state.heat !== 'not entered' || isWarming(state)) return 'heating';
  return isChecking(state) ? 'checking' : 'planned';
}

/** Somebody has begun to look whether all is as it has to be. */
const isChecking = (state: State): boolean => state.ambient !== undefined || hasChecked(state);
