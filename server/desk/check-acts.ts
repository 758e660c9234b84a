/** Whether a check or a point is one of the procedure, and whether the answer of that role is the one that it asks for. */
import type { Assessment } from '../judgement/assessment.ts';
import type { CheckAct } from '../weld/checks.ts';
import type { Act } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Role } from '../weld/person.ts';
import type { Problem } from '../weld/problems.ts';

/** Whose answer or release the procedure asks for; undefined where anybody's counts. */
export function askedRole(act: Act, procedure: Joint['procedure']): Role | undefined {
  if (act.kind === 'check answered') return procedure?.checks?.find(({ id }) => id === act.check)?.role;
  if (act.kind !== 'point released' && act.kind !== 'point waived' && act.kind !== 'point refused') return undefined;
  return procedure?.points?.find(({ id }) => id === act.point)?.role;
}

export function checkProblems(act: CheckAct, { procedure }: Joint, { points }: Assessment, role?: Role): Problem[] {
  const isCheck = act.kind === 'check answered';
  const [found, list] = isCheck ? [act.check, procedure?.checks] : [act.point, procedure?.points];
  const known = (list ?? []).map(({ id }) => id);
  const asked = askedRole(act, procedure);
  if (asked !== undefined && role !== undefined && asked !== role)
    return [
      {
        field: 'who.role',
        found: role,
        allowed: `${asked}, whose ${isCheck ? 'answer' : 'release'} is asked for here`,
      },
    ];
  const given = act.kind === 'point refused' ? points?.find(({ id }) => id === found)?.given : undefined;
  if (given !== undefined)
    return [
      {
        field: 'act.point',
        found,
        allowed: `a point that still stands open; this one was ${given.state} by ${given.who}. Stop the work and write a note`,
      },
    ];
  if (known.includes(found)) return [];
  const what = isCheck ? 'check' : 'point';
  const allowed =
    known.length === 0 ? `a procedure that has ${what}s; this joint's has none` : `one of ${known.join(', ')}`;
  return [{ field: `act.${what}`, found, allowed }];
}
