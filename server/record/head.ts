/** Where a chain stands, and its head as it is carried out of the house. */
import type { ChainHeadText } from '../ledger/head-text.ts';
import type { Database } from './database.ts';

export interface ChainHead {
  readonly chain: string;
  /** Entries in the chain, blocks included; 0 for a chain that is not there. */
  readonly seq: number;
  readonly hash: string;
  /** Of its newest scan or entry. */
  readonly position: number;
  /** Opened and not closed. */
  readonly open: boolean;
  /** Scans that are kept but not sealed yet. */
  readonly journalled: number;
}

/** A head with what vouches for it, to be carried out of the house; bare in a record without a key. */
export interface SignedHead extends ChainHeadText {
  /** Fingerprint of the key that signed it. */
  readonly fingerprint?: string;
}

/** Hash of one entry; undefined where there is none of that number. */
export const hashAt = (database: Database, chain: string, seq: number): string | undefined =>
  database.get<{ hash: string }>('SELECT hash FROM entries WHERE chain = ? AND seq = ?', chain, seq)?.hash;
