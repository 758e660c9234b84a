/** Laws of the record: grouping changes nothing, and the tail is what the listeners heard. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { CommittedItem, Item } from '../../server/ledger/item.ts';
import { limits } from '../../server/measure/limits.ts';
import { inspectRecord } from '../../server/record/inspection.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { arbitraryScan } from '../support/arbitrary-scans.ts';
import { act, at, type Bench, bench, note, opened, verdict } from '../support/record.ts';

const seed = 20_260_302;
type Step =
  | { readonly do: 'item'; readonly item: Item; readonly together: boolean }
  | { readonly do: 'seal'; readonly second: number }
  | { readonly do: 'reopen' };

const chain = fc.constantFrom('joint-1', 'joint-2', 'joint-3');
const second = fc.nat({ max: 400 });
const item: fc.Arbitrary<Item> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.tuple(chain, arbitraryScan).map(([id, scan]): Item => ({ type: 'scan', chain: id, scan })),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(second, fc.string({ minLength: 1 }), chain).map(([n, text, id]) => note(n, text, id)),
  },
  { weight: 1, arbitrary: fc.tuple(second, chain).map(([n, id]) => opened(n, id)) },
  { weight: 1, arbitrary: fc.tuple(second, chain).map(([n, id]) => act(n, { kind: 'close' }, id)) },
  { weight: 1, arbitrary: fc.tuple(second, chain).map(([n, id]) => verdict(n, 'complies', id)) },
);
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 12, arbitrary: fc.record({ do: fc.constant('item'), item, together: fc.boolean() }) as fc.Arbitrary<Step> },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('seal'), second }) as fc.Arbitrary<Step> },
  { weight: 1, arbitrary: fc.constant<Step>({ do: 'reopen' }) },
);
const steps = fc.array(step, { minLength: 5, maxLength: 40 });

/** Takes the steps; items that belong together go into one commit, or all by themselves. */
const run = (bed: Bench, taken: readonly Step[], grouped: boolean, heard?: CommittedItem[]): void => {
  let group: Item[] = [];
  const listen = (): unknown => heard && bed.store.onCommit((items) => heard.push(...items));
  const flush = (): void => {
    if (group.length > 0) bed.store.commit(group);
    group = [];
  };
  listen();
  for (const each of taken) {
    if (each.do === 'item') {
      if (!grouped || !each.together) flush();
      group.push(each.item);
      continue;
    }
    flush();
    if (each.do === 'seal') bed.store.sealDue(at(each.second * 1000));
    else {
      bed.reopen();
      listen();
    }
  }
  flush();
};

test('commits in any grouping give the same chains, byte for byte', { timeout: 120_000 }, () => {
  fc.assert(
    fc.property(steps, (taken) => {
      const [one, other] = [bench(), bench()];
      run(one, taken, true);
      run(other, taken, false);
      expect(one.store.chains()).toEqual(other.store.chains());
      const all = { limit: limits.tailItemsMaximum };
      expect(one.store.after(0, all)).toEqual(other.store.after(0, all));
      one.store.close();
      other.store.close();
    }),
    { seed, numRuns: 60 },
  );
});

test('after any position comes what the listeners heard since: of all chains, of one, in pages, live and from disk', {
  timeout: 120_000,
}, () => {
  fc.assert(
    fc.property(steps, fc.integer({ min: 1, max: 7 }), (taken, page) => {
      const bed = bench();
      const heard: CommittedItem[] = [];
      run(bed, taken, true, heard);
      const reader = openRecordReadOnly(bed.folder);
      for (const source of [bed.store, reader]) {
        for (let position = 0; position <= heard.length; position += 1) {
          expect(source.after(position, { limit: 1000 })).toEqual(heard.slice(position));
          const found = source.after(position, { limit: page, chain: 'joint-2' });
          const expected = heard.filter((each) => each.position > position && each.chain === 'joint-2');
          expect(found).toEqual(expected.slice(0, page));
        }
      }
      const followed: CommittedItem[] = [];
      for (let last = 0; ; last = followed.at(-1)!.position) {
        const found = reader.after(last, { limit: page });
        followed.push(...found);
        if (found.length === 0) break;
      }
      expect(followed).toEqual(heard);
      expect([...reader.inputs('joint-1')]).toHaveLength(
        heard.filter((each) => each.chain === 'joint-1' && (each.type === 'scan' || each.class === 'input')).length,
      );
      reader.close();
      bed.store.close();
      expect(inspectRecord(bed.folder).firstBad).toBeUndefined();
    }),
    { seed, numRuns: 40 },
  );
});
