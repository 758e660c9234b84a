/**
 * The newest closed joints for the list, as they were recorded: looked up beside the trip and not judged again, so that what is open
 * never waits for them. Looked up anew when another one was closed, or readings went into a package or came back.
 */
import type { Errand, Outcome } from '../errands/errand.ts';
import { isJointChain } from '../ledger/item.ts';
import { limits } from '../measure/limits.ts';
import type { FoundJoint } from '../past/view.ts';
import type { RecordReader } from '../record/read.ts';

/** What was looked up last; undefined until that was done once. */
export type ClosedList = () => readonly FoundJoint[] | undefined;

export function closedList(
  record: Pick<RecordReader, 'newestChains' | 'removed'>,
  errand: <E extends Errand>(errand: E) => Promise<Outcome<E>>,
): ClosedList {
  const count = limits.closedListedMaximum;
  let list: readonly FoundJoint[] | undefined;
  let lookedUpFor: string | undefined;

  const lookUp = async (key: string): Promise<void> => {
    lookedUpFor = key;
    try {
      const { joints } = await errand({ kind: 'find', asked: { state: 'closed' }, from: 0, count });
      if (lookedUpFor === key) list = joints;
    } catch {
      // Tried again when the list is asked for again.
      if (lookedUpFor === key) lookedUpFor = undefined;
    }
  };

  return () => {
    const closed = record.newestChains(count).filter(({ chain, open }) => !open && isJointChain(chain));
    if (closed.length === 0) return [];
    const key = closed
      .map(({ chain, position }) => `${chain} ${position} ${record.removed(chain)?.seq ?? ''}`)
      .join('\n');
    if (key !== lookedUpFor) void lookUp(key);
    return list;
  };
}
