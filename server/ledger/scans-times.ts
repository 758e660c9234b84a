/** When each scan of a block was measured and came in, and of which board: all that a look at its completeness needs. */
import type { Instant } from '../measure/quantity.ts';
import { CanonicalFailure } from './canonical.ts';
import { readRuns } from './columns.ts';
import { type Found, list, object, stepsOf, text } from './found.ts';

export interface ScanTime {
  readonly board: string;
  readonly measuredAt: Instant;
  readonly arrivedAt: Instant;
}

/** In the order of the scans. Throws CanonicalFailure unless there are exactly `count`. Uses the columns of time up. */
export const timesOf = (document: Found, count: number): readonly ScanTime[] => {
  const order = readRuns(document.order, count, 'order');
  const groups = list(document.groups, 'groups').map((each) => object(each, 'groups'));
  const sizes = groups.map(() => 0);
  for (const index of order) {
    if (index >= sizes.length) throw new CanonicalFailure('order', 'names a group that is not there');
    sizes[index]! += 1;
  }
  const columns = groups.map((group, index) => ({
    board: text(group.board, 'board'),
    measuredAt: stepsOf(group, 'measuredAt', sizes[index]!),
    arrivedAt: stepsOf(group, 'arrivedAt', sizes[index]!),
    next: 0,
  }));
  return order.map((index) => {
    const group = columns[index]!;
    const at = group.next;
    group.next += 1;
    return {
      board: group.board,
      measuredAt: group.measuredAt[at] as Instant,
      arrivedAt: group.arrivedAt[at] as Instant,
    };
  });
};
