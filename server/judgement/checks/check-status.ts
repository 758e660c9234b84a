/** Checks before welding and points of inspection, as they stand. */
import type { Instant } from '../../measure/quantity.ts';
import type { Check, Point } from '../../weld/checks.ts';

export interface GivenAnswer {
  readonly answer: 'in order' | 'not in order' | 'not applicable';
  readonly who: string;
  readonly role?: string;
  readonly note?: string;
  /** SHA-256 of a photo in the record. */
  readonly document?: string;
  readonly at: Instant;
}

export interface CheckStatus extends Check {
  /** The newest that counts. */
  readonly answered?: GivenAnswer;
}

export interface GivenRelease {
  readonly state: 'released' | 'waived';
  readonly who: string;
  readonly role?: string;
  readonly note?: string;
  readonly at: Instant;
}

/** Whoever may release it looked, and did not. */
export interface Refusal {
  readonly who: string;
  readonly role?: string;
  /** What has to be done first. */
  readonly reason: string;
  readonly at: Instant;
}

export interface PointStatus extends Point {
  readonly given?: GivenRelease;
  /** Not released, and nothing since. */
  readonly refused?: Refusal;
  /** The work went on past it without. */
  readonly passedAt?: Instant;
}
