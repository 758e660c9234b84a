/** A joint finds its repairs in the record by what they were opened with, and says of each whether it is open. */
import { expect, test } from 'vitest';
import type { EntryItem } from '../../../server/ledger/item.ts';
import { repairsOf } from '../../../server/record/repairs.ts';
import { modelText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { problems } from '../../../server/weld/problems.ts';
import { unsettledText } from '../../../server/wording/repair.ts';
import { act, bench, opened } from '../../support/record.ts';
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
  const made = bench();
  const openedAs = (n: number, changes: Partial<Joint>): EntryItem => {
    const entry = opened(n, changes.id);
    const { joint, ...event } = entry.body as { joint: Joint };
    return { ...entry, body: { ...event, joint: { ...joint, ...changes } } };
  };
  made.store.commit([
    openedAs(1, { id: 'seam-4' }),
    openedAs(2, { id: 'seam-4-r1', title: 'first', repairOf: { ...background, joint: 'seam-4' } }),
    openedAs(3, { id: 'seam-5-r1', title: 'other', repairOf: { ...background, joint: 'seam-5' } }),
  ]);
  expect(repairsOf(made.store, 'seam-4')).toEqual([{ id: 'seam-4-r1', title: 'first', state: 'open' }]);
  expect(repairsOf(made.store, 'seam-4-r1')).toEqual([]);
  made.store.commit([
    openedAs(4, { id: 'seam-4-r2', title: 'second', repairOf: { ...background, joint: 'seam-4' } }),
    act(5, { kind: 'close' }, 'seam-4-r1'),
  ]);
  expect(repairsOf(made.store, 'seam-4').map(({ id, state }) => [id, state])).toEqual([
    ['seam-4-r1', 'closed'],
    ['seam-4-r2', 'open'],
  ]);
});
