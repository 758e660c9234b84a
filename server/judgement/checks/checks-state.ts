/** What the judge remembers of checks and points. */
import type { Instant } from '../../measure/quantity.ts';
import type { GivenAnswer, GivenRelease, Refusal } from './check-status.ts';

export interface ChecksState {
  answers: { [check: string]: GivenAnswer };
  given: { [point: string]: GivenRelease };
  refused: { [point: string]: Refusal };
  /** When the work went past a point without its release. */
  passed: { [point: string]: Instant };
  /** Findings of checks are told once: with the first pass that began without. */
  told: string[];
}

export const noChecks = (): ChecksState => ({ answers: {}, given: {}, refused: {}, passed: {}, told: [] });
