/** Whether a check or a point is one of the procedure. Whose answer counts is judged. */
import type { CheckAct } from '../weld/checks.ts';
import type { Joint } from '../weld/joint.ts';
import type { Problem } from '../weld/problems.ts';

export function checkProblems(act: CheckAct, { procedure }: Joint): Problem[] {
  const isCheck = act.kind === 'check answered';
  const [found, list] = isCheck ? [act.check, procedure?.checks] : [act.point, procedure?.points];
  const known = (list ?? []).map(({ id }) => id);
  if (known.includes(found)) return [];
  const what = isCheck ? 'check' : 'point';
  const allowed =
    known.length === 0 ? `a procedure that has ${what}s; this joint's has none` : `one of ${known.join(', ')}`;
  return [{ field: `act.${what}`, found, allowed }];
}
