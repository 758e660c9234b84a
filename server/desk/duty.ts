/** Refuses an entry that the writer's role may not make, and says who may. */
import { againstDuty, type DutyKind } from '../weld/duties.ts';
import type { Person } from '../weld/person.ts';
import type { Problem } from '../weld/problems.ts';
import { entryText, rolesText } from '../wording/duty.ts';

export function dutyProblems(kind: DutyKind, { role }: Person): Problem[] {
  const against = againstDuty(kind, role);
  if (against === undefined) return [];
  const found = against === 'role not stated' ? 'no role' : `the role ${role}`;
  return [{ field: 'who.role', found, allowed: `for ${entryText(kind)}: ${rolesText(kind)}` }];
}
