/** A chain that comes at once, as that of a job which is kept from its logs. */
import { expect, test } from 'vitest';
import { sealBlock } from '../../../server/ledger/block.ts';
import { inspectRecord } from '../../../server/record/inspection.ts';
import type { Input } from '../../../server/weld/entry.ts';
import { act, at, bench, inputsOf, note, opened, scan, scanItem } from '../../support/record.ts';

const kinds = (inputs: readonly Input[]): (number | string)[] =>
  inputs.map((input) =>
    input.type === 'scan' ? input.scan.sequence : input.type === 'act' ? input.act.kind : input.event.kind,
  );

test('a whole chain is kept at once or not at all, and only where there is none', () => {
  const bed = bench();
  const { store } = bed;
  const block = (...numbers: number[]) =>
    ({ type: 'block', at: at(0), sealed: sealBlock(numbers.map((n) => scan(n))) }) as const;
  store.commit([scanItem(1, 'joint-2')]);
  const bad = [opened(0), block(1, 2), act(3, { kind: 'heat', at: Number.NaN } as never)];
  expect(() => store.keepWhole('joint-1', bad)).toThrow('body.at: NaN');
  expect(store.head('joint-1').seq).toBe(0);

  const head = store.keepWhole('joint-1', [opened(0), block(1, 2), note(0, 'x'), block(3), act(0, { kind: 'close' })]);
  expect(head).toMatchObject({ seq: 5, position: 7, open: false, journalled: 0 });
  expect(kinds(inputsOf(store))).toEqual(['opened', 1, 2, 'note', 3, 'close']);
  expect(store.after(0, { chain: 'joint-1', limit: 100 }).map(({ position }) => position)).toEqual([2, 3, 4, 5, 6, 7]);
  // What waited in another chain's journal is untouched, and what comes next goes on from there.
  expect(store.commit([scanItem(2, 'joint-2')]).position).toBe(8);
  expect(() => store.keepWhole('joint-1', [opened(0)])).toThrow('there is one called "joint-1"');
  expect(inspectRecord(bed.folder).ok).toBe(true);
});
