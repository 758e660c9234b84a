/** What the desk says of answers and releases: only of what the procedure has, by whom it asks, and while it stands open. */
import { expect, test } from 'vitest';
import { checkProblems } from '../../../server/desk/check-acts.ts';
import { instant } from '../../../server/measure/quantity.ts';
import type { CheckAct } from '../../../server/weld/checks.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { Role } from '../../../server/weld/person.ts';
import { assessment } from '../wording/sample-assessment.ts';

const point = { id: 'H1', kind: 'hold', before: 'first pass', role: 'inspector' } as const;
const joint = { procedure: { points: [point] } } as unknown as Joint;
const given = { state: 'released', who: 'Ada', at: instant(0) } as const;
const allowed = (act: CheckAct, role?: Role, points: readonly object[] = [point]): readonly string[] =>
  checkProblems(act, joint, assessment({ points: points as never }), role).map((each) => each.allowed);

test('a point is released, or not, by whom the procedure names', () => {
  const refused: CheckAct = { kind: 'point refused', point: 'H1', reason: 'grind the toe first' };
  for (const act of [{ kind: 'point released', point: 'H1' } as const, refused]) {
    expect(allowed(act, 'inspector')).toEqual([]);
    expect(allowed(act, 'coordinator')[0]).toContain('inspector, whose release is asked for');
    expect(allowed({ ...act, point: 'H9' }, 'inspector')[0]).toBe('one of H1');
  }
});

test('what was released is not refused afterwards: the work is stopped, with a note', () => {
  const refused: CheckAct = { kind: 'point refused', point: 'H1', reason: 'grind the toe first' };
  expect(allowed(refused, 'inspector', [{ ...point, given }])[0]).toContain('released by Ada');
  expect(allowed({ kind: 'point released', point: 'H1' }, 'inspector', [{ ...point, given }])).toEqual([]);
});
