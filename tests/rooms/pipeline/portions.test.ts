/** A batch that is more than one commit can take goes in several, in order, and whoever asked is answered of his own item. */
import { expect, test } from 'vitest';
import { batchOf, portionsOf } from '../../../server/trip/batch.ts';
import { note } from '../../support/record.ts';

test('in order, nothing twice and nothing left out; what fits stays what it is', () => {
  const items = Array.from({ length: 7 }, (_, index) => note(index, `note ${index}`));
  const batch = batchOf(items);
  const answered: number[] = [];
  batch.asked = [1, 3, 6].map((index) => ({ asked: { done: () => answered.push(index), failed: () => {} }, index }));
  expect(portionsOf(batch, 7)).toEqual([batch]);
  expect(portionsOf(batch, 7)[0], 'the very list, by which the record knows it').toBe(batch);
  const portions = portionsOf(batch, 3);
  expect(portions.map((each) => each.items.length)).toEqual([3, 3, 1]);
  expect(portions.flatMap((each) => each.items)).toEqual(items);
  for (const portion of portions)
    for (const { asked, index } of portion.asked) {
      asked.done(index);
      expect(portion.items[index]).toBe(items[answered.at(-1)!]);
    }
  expect(answered).toEqual([1, 3, 6]);
});
