/** A joint finds its repairs in the record by what they were opened with, and says of each whether it is open. */
import { expect, test } from 'vitest';
import { repairsOf } from '../../../server/record/repairs.ts';
import { modelText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { problems } from '../../../server/weld/problems.ts';
import { unsettledText } from '../../../server/wording/repair.ts';
import { reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';
import { everyField } from '../web/every-field.ts';

const background = everyField.repairOf!;

test('a repair states its own restraint and mends another joint', () => {
  const repair = { ...fixtureJoint(), id: 'seam-4-r1', repairOf: { ...background, joint: 'seam-4' } };
  expect(jointSchema.safeParse({ ...repair, restraint: 'high' }).success).toBe(true);
  const told = (joint: unknown): string => {
    const { error } = jointSchema.safeParse(joint);
    return error === undefined ? '' : JSON.stringify(problems(error, joint));
  };
  expect(told(repair)).toContain('a repair needs its own');
  expect(told({ ...repair, restraint: 'high', id: 'seam-4' })).toContain('another joint than this one');
  const { cause: _cause, ...half } = repair.repairOf;
  expect(told({ ...repair, restraint: 'high', repairOf: half })).toContain('cause');
});

test('the paper of the repair names its joint and its background, that of the joint its repairs and that it is not settled', () => {
  const repair = { ...fixtureJoint(), restraint: 'high', repairOf: { ...background, joint: 'seam-4' } } as Joint;
  const mending = modelText(pages(reportFacts({ joint: repair })));
  for (const words of ['seam-4', background.found, background.cause, 'in every direction'])
    expect(mending).toContain(words);
  const open = { id: 'seam-4-r1', title: 'Repair of seam 4', state: 'open' } as const;
  const mended = modelText(pages({ ...reportFacts({ joint: fixtureJoint() }), repairs: [open] }));
  for (const words of [
    'seam-4-r1 (Repair of seam 4), open',
    'Not settled: repair seam-4-r1 is still open',
    'REPAIR OPEN',
  ])
    expect(mended).toContain(words);
  expect(unsettledText([{ ...open, state: 'closed' }])).toBeUndefined();
});

test('the record tells which joints mend which', () => {
  const joints: Record<string, Joint> = {
    'seam-4': fixtureJoint(),
    'seam-4-r1': { ...fixtureJoint(), title: 'first', repairOf: { ...background, joint: 'seam-4' } } as Joint,
    'seam-5-r1': { ...fixtureJoint(), title: 'other', repairOf: { ...background, joint: 'seam-5' } } as Joint,
  };
  let asked = 0;
  const reader = {
    chains: () =>
      ['station', 'Procedures', ...Object.keys(joints)].map((chain) => ({ chain, open: chain !== 'seam-4' })),
    entries: (chain: string) => {
      asked += 1;
      const body = { kind: 'opened', joint: joints[chain] };
      return [{ type: 'entry', chain, at: 1, who: 'station', class: 'input', kind: 'opened', body }];
    },
  } as unknown as Parameters<typeof repairsOf>[0];
  expect(repairsOf(reader, 'seam-4')).toEqual([{ id: 'seam-4-r1', title: 'first', state: 'open' }]);
  expect(repairsOf(reader, 'seam-4-r1')).toEqual([]);
  expect(asked, 'what a chain was opened with is read once').toBe(3);
});
