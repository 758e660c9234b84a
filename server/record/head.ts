/** Where a chain stands. */
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
