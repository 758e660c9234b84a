/** Closed joints in the list are looked up beside it: what is open never waits for them. */
import { expect, test } from 'vitest';
import type { Errand, Outcome } from '../../../server/errands/errand.ts';
import type { FoundJoint } from '../../../server/past/view.ts';
import { closedList } from '../../../server/station/closed-list.ts';

/** Answers wait until they are given. */
function station() {
  const chains = [{ chain: 'open', seq: 1, position: 1, hash: '', open: true, journalled: 0 }];
  let removed: { readonly seq: number } | undefined;
  const asked: { readonly answer: (ids: readonly string[]) => void; readonly fail: () => void }[] = [];
  const errand = <E extends Errand>(errand: E): Promise<Outcome<E>> => {
    expect(errand).toMatchObject({ kind: 'find', asked: { state: 'closed' }, from: 0 });
    return new Promise((resolve, reject) => {
      asked.push({
        answer: (ids) => resolve({ joints: ids.map((id) => ({ id }) as FoundJoint) } as unknown as Outcome<E>),
        fail: () => reject(new Error('the thread ended')),
      });
    });
  };
  const list = closedList({ newestChains: () => chains, removed: () => removed as never }, errand);
  return {
    asked,
    close: (chain: string) => chains.push({ ...chains[0]!, chain, position: chains.length + 1, open: false }),
    removeReadings: () => (removed = { seq: 9 }),
    list: () => list()?.map(({ id }) => id),
    /** What was answered has been taken in. */
    settled: () => new Promise(setImmediate),
  };
}

test('nothing is looked up where none is closed', () => {
  const { asked, list } = station();
  expect(list()).toEqual([]);
  expect(asked).toEqual([]);
});

test('the list is there at once without them, and looked up once', async () => {
  const { asked, close, list, settled } = station();
  close('one');
  expect([list(), list()]).toEqual([undefined, undefined]);
  expect(asked).toHaveLength(1);
  asked[0]!.answer(['one']);
  await settled();
  expect([list(), list()]).toEqual([['one'], ['one']]);
  expect(asked).toHaveLength(1);
});

test('when another is closed, or readings went, it is looked up anew, and the old list stands until then', async () => {
  const { asked, close, list, removeReadings, settled } = station();
  close('one');
  list();
  asked[0]!.answer(['one']);
  await settled();
  close('two');
  expect(list()).toEqual(['one']);
  asked[1]!.answer(['two', 'one']);
  await settled();
  expect(list()).toEqual(['two', 'one']);
  removeReadings();
  list();
  expect(asked).toHaveLength(3);
});

test('what failed is asked for again', async () => {
  const { asked, close, list, settled } = station();
  close('one');
  list();
  asked[0]!.fail();
  await settled();
  list();
  asked[1]!.answer(['one']);
  await settled();
  expect(list()).toEqual(['one']);
});
