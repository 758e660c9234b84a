/** An entry by a role that may not make it is told; a decision then counts for nothing, a fact is judged all the same. */
import { againstDuty, duties } from '../../weld/duties.ts';
import type { Act } from '../../weld/entry.ts';
import { note } from '../findings.ts';
import type { State } from '../state.ts';

/** Whether the act takes effect. */
export function takesEffect(state: State, act: Act, who: string, role: string | undefined): boolean {
  if (againstDuty(act.kind, role) === undefined) return true;
  note(state, 'entry outside role', state.now, { who, act: act.kind });
  return duties[act.kind].weight === 'fact';
}
