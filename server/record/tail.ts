/**
 * The tail of the record: items in the order of their positions, over one chain or all, merged from one
 * walk through each chain that has something newer than the asker.
 */
import type { CommittedItem } from '../ledger/item.ts';
import type { Database } from './database.ts';
import { walkChain } from './walk.ts';

export const tailAfter = (
  database: Database,
  position: number,
  chain: string | undefined,
  limit: number,
): readonly CommittedItem[] => {
  const walks = chainsWithMore(database, position, chain).map(
    (id) => new Walk(walkChain(database, id, position, { whereRemoved: 'pass over' })),
  );
  const items: CommittedItem[] = [];
  while (items.length < limit) {
    let first: Walk | undefined;
    for (const walk of walks) {
      if (walk.next !== undefined && (first?.next === undefined || walk.next.position < first.next.position))
        first = walk;
    }
    if (first?.next === undefined) break;
    items.push(first.next);
    first.step();
  }
  return items;
};

class Walk {
  next: CommittedItem | undefined;
  private readonly items: Iterator<CommittedItem, void>;
  constructor(items: Iterator<CommittedItem, void>) {
    this.items = items;
    this.step();
  }
  step(): void {
    const step = this.items.next();
    this.next = step.done === true ? undefined : step.value;
  }
}

const chainsWithMore = (database: Database, position: number, chain: string | undefined): readonly string[] =>
  chain !== undefined
    ? [chain]
    : database.all<{ chain: string }>('SELECT chain FROM chains WHERE position > ?', position).map((row) => row.chain);
