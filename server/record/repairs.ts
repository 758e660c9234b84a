/** The repairs of a joint: joints of the same record whose opening names it. */
import { inputOf, isJointChain } from '../ledger/item.ts';
import type { Joint } from '../weld/joint.ts';
import type { RecordReader } from './read.ts';

export interface Repair {
  readonly id: string;
  readonly title: string;
  readonly state: 'open' | 'closed';
}

/** What a chain was opened with never changes, so that it is read once for each reader. */
const opened = new WeakMap<RecordReader, Map<string, Pick<Joint, 'title' | 'repairOf'> | undefined>>();

export function repairsOf(reader: RecordReader, joint: string): readonly Repair[] {
  const known = opened.get(reader) ?? new Map<string, Pick<Joint, 'title' | 'repairOf'> | undefined>();
  opened.set(reader, known);
  return reader
    .chains()
    .filter(({ chain }) => isJointChain(chain) && chain !== joint)
    .flatMap(({ chain, open }): Repair[] => {
      if (!known.has(chain)) known.set(chain, openedWith(reader, chain));
      const found = known.get(chain);
      if (found?.repairOf?.joint !== joint) return [];
      return [{ id: chain, title: found.title, state: open ? 'open' : 'closed' }];
    });
}

function openedWith(reader: RecordReader, chain: string): Pick<Joint, 'title' | 'repairOf'> | undefined {
  for (const entry of reader.entries(chain)) {
    const input = inputOf(entry);
    if (input?.type === 'station' && input.event.kind === 'opened') {
      const { title, repairOf } = input.event.joint;
      return { title, ...(repairOf === undefined ? {} : { repairOf }) };
    }
  }
  return undefined;
}
