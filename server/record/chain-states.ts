/** Where each chain stands within one transaction: read once, changed in memory, written back at its end. */
import { noHash } from '../ledger/hash.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Database } from './database.ts';
import type { ChainHead } from './head.ts';

export interface ChainState {
  readonly chain: string;
  seq: number;
  hash: string;
  /** Of the newest scan or entry. */
  position: number;
  /** Time of the newest entry. */
  at: Instant;
  /** 1 from the entry that opens the joint to the one that closes it. */
  open: 0 | 1;
  /** Head that the station's chain has noted. */
  noted: number;
  journalled: number;
  journalled_bytes: number;
}

export class ChainStates {
  private readonly database: Database;
  private readonly touched = new Map<string, ChainState>();

  constructor(database: Database) {
    this.database = database;
  }

  /** To be changed in place. A chain that is not there yet stands at nothing. */
  of(chain: string): ChainState {
    const known = this.touched.get(chain);
    if (known !== undefined) return known;
    const found = this.database.get<ChainState>('SELECT * FROM chains WHERE chain = ?', chain);
    const none = { seq: 0, hash: noHash, position: 0, at: 0 as Instant, open: 0, noted: 0 } as const;
    const state: ChainState = found ? { ...found } : { chain, ...none, journalled: 0, journalled_bytes: 0 };
    this.touched.set(chain, state);
    return state;
  }

  heads(): readonly ChainHead[] {
    return [...this.touched.values()].map(({ chain, seq, hash, position, open, journalled }) => {
      return { chain, seq, hash, position, open: open === 1, journalled };
    });
  }

  flush(): void {
    for (const s of this.touched.values()) {
      this.database.run(
        'INSERT OR REPLACE INTO chains (chain, seq, hash, position, at, open, noted, journalled, journalled_bytes) ' +
          'VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)',
        s.chain,
        s.seq,
        s.hash,
        s.position,
        s.at,
        s.open,
        s.noted,
        s.journalled,
        s.journalled_bytes,
      );
    }
  }
}
