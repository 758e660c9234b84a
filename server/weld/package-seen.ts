/** What would be done with a package that was handed in for the readings of a joint. */
export interface PackageSeen {
  /** Names it for a while, for whoever goes on. */
  readonly id: string;
  readonly way: 'remove' | 'put back';
  readonly sha256: string;
  readonly scans: number;
  /** Bytes that the readings take in the record now. */
  readonly bytes: number;
}
