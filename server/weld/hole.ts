/** What became of samples that did not come when they were due; the link tells it and the record keeps it. */

/** Samples of one start of a board that did not come when they were due, once it is known what became of them. */
export interface Hole {
  readonly boot: number;
  /** Sequence numbers, the last one included. Of a start of the board it is not known how many it would have measured. */
  readonly from: number;
  readonly to?: number;
  /** So many came late, sent again by the board; the others are lost. */
  readonly came: number;
  readonly lost?: number;
  readonly fate: 'sent again' | 'no longer kept' | 'not sent again' | 'board started again';
}
