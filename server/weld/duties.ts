/**
 * Who may make which entry: one table, which the desk refuses by and the judge goes by. No standard gives such a table.
 * It follows common practice under ISO 3834 and ISO 14731 (from memory): who does the work states what was done, who
 * answers for it (coordination, inspection) decides.
 *
 * A fact is judged whoever states it, since leaving it out would hide what happened; a decision counts only from a role
 * that may make it. Where no role was stated, as in a station without sign-on, an entry stands as its writer's word
 * unless the table asks for the role.
 */
import type { Act } from './entry.ts';
import { type Role, roles } from './person.ts';
import type { ProcedureAct } from './procedure-act.ts';

export interface Duty {
  readonly roles: readonly Role[];
  readonly weight: 'fact' | 'decision';
  /** Nobody may make it without saying what they are. */
  readonly needsRole?: true;
}

/** Entering a joint, keeping the logs of one, removing readings and keeping procedures are no acts on a joint, and stand in the table all the same. */
export type DutyKind = Act['kind'] | ProcedureAct['kind'] | 'open' | 'import' | 'remove readings' | 'put readings back';

const onTheJob: readonly Role[] = ['welder', 'heater operator', 'inspector', 'coordinator'];
const answering: readonly Role[] = ['inspector', 'coordinator'];
const anybody: readonly Role[] = [...onTheJob, 'third party', 'administrator'];

export const duties: { readonly [kind in DutyKind]: Duty } = {
  open: { roles: onTheJob, weight: 'fact' },
  // A job that was measured elsewhere becomes a closed record.
  import: { roles: answering, weight: 'fact' },
  // Out of the record into a package, and back: of a closed joint, and never by itself.
  'remove readings': { roles: ['coordinator'], weight: 'decision', needsRole: true },
  'put readings back': { roles: ['coordinator'], weight: 'decision', needsRole: true },
  procedure: { roles: answering, weight: 'decision' },
  'withdraw procedure': { roles: answering, weight: 'decision' },
  revise: { roles: answering, weight: 'fact' },
  // Whoever keeps the log of the work enters heat and passes; who welds stands in the pass itself.
  heat: { roles: onTheJob, weight: 'fact' },
  'pass start': { roles: ['welder', ...answering], weight: 'fact' },
  'pass end': { roles: ['welder', ...answering], weight: 'fact' },
  'pass details': { roles: ['welder', ...answering], weight: 'fact' },
  break: { roles: onTheJob, weight: 'fact' },
  // By whom it counts, the procedure says.
  'break inspected': { roles: ['welder', ...answering, 'third party'], weight: 'fact' },
  // It can make a finding go, so that it takes somebody who answers for the joint.
  'correct pass': { roles: answering, weight: 'decision' },
  'welding complete': { roles: ['welder', ...answering], weight: 'fact' },
  'post-heating': { roles: onTheJob, weight: 'fact' },
  cover: { roles: onTheJob, weight: 'fact' },
  'heat treatment begun': { roles: onTheJob, weight: 'fact' },
  'testing begun': { roles: [...answering, 'third party'], weight: 'fact' },
  'spot examined': { roles: [...answering, 'third party'], weight: 'fact' },
  'contact reading': { roles: [...onTheJob, 'third party'], weight: 'fact' },
  // Of the probes, before heating.
  'ambient check': { roles: [...onTheJob, 'third party'], weight: 'fact' },
  // Whose answer counts, and who releases, the procedure says.
  'check answered': { roles: [...onTheJob, 'third party'], weight: 'fact' },
  'point released': { roles: [...answering, 'third party'], weight: 'decision' },
  'point waived': { roles: [...answering, 'third party'], weight: 'decision' },
  'point refused': { roles: [...answering, 'third party'], weight: 'decision' },
  note: { roles: anybody, weight: 'fact' },
  attach: { roles: anybody, weight: 'fact' },
  'hand-over': { roles: onTheJob, weight: 'fact' },
  acknowledge: { roles: onTheJob, weight: 'fact' },
  shelve: { roles: onTheJob, weight: 'decision' },
  unshelve: { roles: onTheJob, weight: 'fact' },
  accept: { roles: answering, weight: 'decision' },
  disposition: { roles: [...answering, 'third party'], weight: 'decision', needsRole: true },
  calibration: { roles: answering, weight: 'fact' },
  verification: { roles: answering, weight: 'fact' },
  adjustment: { roles: answering, weight: 'fact' },
  'declare source': { roles: ['heater operator', ...answering], weight: 'decision' },
  // To doubt never makes a joint look better, so that everybody may.
  'distrust probe': { roles: [...onTheJob, 'third party'], weight: 'fact' },
  'trust probe again': { roles: answering, weight: 'decision' },
  'spare takes over': { roles: ['heater operator', ...answering], weight: 'decision' },
  close: { roles: answering, weight: 'fact' },
};

/** What stands against an entry by such a role; undefined where nothing does. A role that is not known may nothing. */
export function againstDuty(kind: DutyKind, role: string | undefined): 'not this role' | 'role not stated' | undefined {
  const duty = duties[kind];
  if (role === undefined) return duty.needsRole === true ? 'role not stated' : undefined;
  return (duty.roles as readonly string[]).includes(role) ? undefined : 'not this role';
}

/** Of the roles that a person has, the first in the order of the table by which the entry may be made. */
export const roleFor = (kind: DutyKind, held: readonly Role[]): Role | undefined =>
  roles.find((role) => held.includes(role) && againstDuty(kind, role) === undefined);
