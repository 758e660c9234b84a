/** The table of who may make which entry. */
import { describe, expect, it } from 'vitest';
import { againstDuty, type DutyKind, duties, roleFor } from '../../../server/weld/duties.ts';
import { actSchema } from '../../../server/weld/entry.ts';
import { roles } from '../../../server/weld/person.ts';

const kinds = Object.keys(duties) as DutyKind[];

describe('who may make which entry', () => {
  it('is said for every act that there is, for entering and keeping a joint, for its readings, and for procedures', () => {
    const acts = actSchema.options.map((option) => option.shape.kind.value);
    expect(kinds.toSorted()).toEqual(
      [...acts, 'import', 'open', 'procedure', 'put readings back', 'remove readings', 'withdraw procedure'].toSorted(),
    );
    for (const kind of kinds) expect(duties[kind].roles.length, kind).toBeGreaterThan(0);
  });

  it('gives a viewer nothing, and an administrator nothing that is judged', () => {
    const may = (role: string) => kinds.filter((kind) => againstDuty(kind, role) === undefined);
    expect(may('viewer')).toEqual([]);
    expect(may('administrator').toSorted()).toEqual(['attach', 'note']);
    expect(may('a role of tomorrow')).toEqual([]);
  });

  it('leaves no decision to a role that only looks on, and none to the welder but quiet', () => {
    const decisions = kinds.filter((kind) => duties[kind].weight === 'decision');
    expect(decisions.filter((kind) => duties[kind].roles.includes('welder'))).toEqual(['shelve']);
    for (const kind of decisions) expect(duties[kind].roles).toContain('coordinator');
  });

  it('lets the word of somebody without a role stand, and picks of several roles one that may', () => {
    expect(againstDuty('close', undefined)).toBeUndefined();
    expect(againstDuty('close', 'welder')).toBe('not this role');
    expect(roleFor('close', ['welder', 'coordinator'])).toBe('coordinator');
    expect(roleFor('pass start', ['coordinator', 'welder'])).toBe('welder');
    expect(roleFor('close', ['welder'])).toBeUndefined();
    expect(roleFor('close', [...roles])).toBe('inspector');
  });
});
