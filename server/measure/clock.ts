/**
 * Time is handed in. Whatever asks what time it is, or wants to be woken, takes a Clock; only main
 * makes the one that reads the machine's. Tests and the demonstration hand in one that they move.
 */
import type { Instant, Milliseconds } from './quantity.ts';

export interface Clock {
  /** Wall clock, integer milliseconds since 1970 UTC. May step. */
  wall(): Instant;
  /** Milliseconds from an arbitrary origin; never steps back. */
  monotonic(): number;
  /**
   * Milliseconds from an arbitrary origin, also while the computer sleeps; never steps. Absent where time is played and may
   * be skipped: there nothing sleeps or stands still.
   */
  sinceBoot?(): number;
  /** Calls back once after the duration. Returns the function that cancels it. */
  after(duration: Milliseconds, wake: () => void): () => void;
}
