/** The repairs of a joint: joints of the same record whose opening names it. */
import { type CommittedEntry, inputOf, isJointChain } from '../ledger/item.ts';
import type { RecordReader } from './read.ts';

export interface Repair {
  readonly id: string;
  readonly title: string;
  readonly state: 'open' | 'closed';
}

interface Opened {
  readonly id: string;
  readonly title: string;
  readonly mends: string;
}

/** What a chain was opened with never changes: each is looked at once for each reader, and most say that they mend nothing. */
const known = new WeakMap<RepairReader, { upTo: number; readonly repairs: Map<string, Opened> }>();

export type RepairReader = Pick<RecordReader, 'position' | 'openingsSince' | 'head'>;

export function repairsOf(reader: RepairReader, joint: string): readonly Repair[] {
  const seen = known.get(reader) ?? { upTo: -1, repairs: new Map<string, Opened>() };
  known.set(reader, seen);
  const position = reader.position();
  for (const entry of reader.openingsSince(seen.upTo, '"repairOf":')) {
    const opened = openedOf(entry);
    if (opened !== undefined) seen.repairs.set(opened.id, opened);
  }
  seen.upTo = position;
  return [...seen.repairs.values()]
    .filter(({ mends }) => mends === joint)
    .map(({ id, title }) => ({ id, title, state: reader.head(id).open ? 'open' : 'closed' }));
}

function openedOf(entry: CommittedEntry): Opened | undefined {
  const input = isJointChain(entry.chain) ? inputOf(entry) : undefined;
  if (input?.type !== 'station' || input.event.kind !== 'opened') return undefined;
  const { title, repairOf } = input.event.joint;
  return repairOf === undefined ? undefined : { id: entry.chain, title, mends: repairOf.joint };
}
