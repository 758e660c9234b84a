/**
 * What the record writes of its own accord as time passes: scans that have waited are sealed, an open
 * joint gets at least one block a minute, with or without scans, as proof that the station was awake,
 * and the heads of the joints' chains are noted in the station's chain.
 */
import { blockKind } from '../ledger/block.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Database } from './database.ts';
import { meta, setMeta } from './schema.ts';
import { reading, type Transactions } from './transactions.ts';

export interface Sealed {
  /** Blocks with scans, and blocks without. */
  readonly sealed: number;
  readonly awake: number;
}

export const sealDue = (database: Database, transactions: Transactions, now: Instant): Sealed => {
  transactions.settle();
  const chains = reading(() => chainsDue(database, now));
  const headsAreDue = reading(() => isDue(now, Number(meta(database, 'heads_at') ?? 0)) && headsHaveMoved(database));
  if (chains.length === 0 && !headsAreDue) return { sealed: 0, awake: 0 };
  let sealed = 0;
  transactions.write((batch) => {
    sealed = 0;
    for (const chain of chains) {
      if (batch.seal(chain, now)) sealed += 1;
      else batch.write(chain, now, blockKind, { count: 0 });
    }
    if (headsAreDue) {
      batch.noteHeads(now);
      setMeta(database, 'heads_at', now);
    }
  });
  return { sealed, awake: chains.length - sealed };
};

/** At the end: nothing stays unsealed, and every head is noted. */
export const sealAll = (database: Database, transactions: Transactions, now: Instant): void => {
  transactions.write((batch) => {
    for (const { chain } of database.all<{ chain: string }>(
      'SELECT chain FROM chains WHERE journalled > 0 ORDER BY chain',
    )) {
      batch.seal(chain, now);
    }
    while (batch.noteHeads(now));
  });
};

/** A wall clock that has stepped back must not stop the sealing: the distance counts, not the direction. */
const isDue = (now: number, since: number): boolean => Math.abs(now - since) >= limits.sealAfterMilliseconds;

const chainsDue = (database: Database, now: Instant): readonly string[] =>
  database
    .all<{ chain: string; open: number; at: number; waiting: number | null }>(
      'SELECT c.chain, c.open, c.at, CASE WHEN c.journalled > 0 THEN ' +
        '(SELECT j.arrived_at FROM journal j WHERE j.chain = c.chain ORDER BY j.position LIMIT 1) END AS waiting ' +
        'FROM chains c WHERE c.open = 1 OR c.journalled > 0 ORDER BY c.chain',
    )
    .filter((row) => (row.waiting !== null && isDue(now, row.waiting)) || (row.open === 1 && isDue(now, row.at)))
    .map((row) => row.chain);

const headsHaveMoved = (database: Database): boolean =>
  database.get("SELECT 1 FROM chains WHERE seq > noted AND chain <> 'station' LIMIT 1") !== undefined;
