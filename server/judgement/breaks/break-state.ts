/** What the judge remembers of the time between two passes. */
import type { Instant, Milliseconds } from '../../measure/quantity.ts';
import type { Extreme } from '../state.ts';
import type { BreakStatus, Inspection } from './break-status.ts';

/** A time without an arc, which may become a break. */
export interface Stretch {
  from: Instant;
  coldest?: Extreme;
  /** First fall below what is to be kept, once it is confirmed. */
  fellAt?: Instant;
  /** All falls that are over, and since when the present one lasts. */
  belowFor: Milliseconds;
  belowSince?: Instant;
  /** For longer than a short gap nobody could tell whether it was kept. */
  unknown?: true;
  /** The open finding of the present fall. */
  fallKey?: string;
}

export interface Break extends Stretch {
  by: BreakStatus['by'];
  who?: string;
  reason?: string;
  to?: Instant;
  inspection?: Inspection;
  /** What was asked of the soak is done: the holds of before count no more. */
  soakVoided?: true;
}

export interface BreaksState {
  /** No arc burns, and it is no break yet. */
  waiting?: Stretch;
  /** Declared while a pass still ran: it begins when that ends. */
  declared?: { who: string; reason: string };
  /** Oldest first; those before `answered` were followed by a pass. */
  list: Break[];
  answered: number;
}

export const noBreaks = (): BreaksState => ({ list: [], answered: 0 });
