/**
 * When something came in, on the time line that all joints of this station share. It follows the wall clock
 * forward and never steps back: while the wall clock lies behind, time goes on by the clock that does not step,
 * so that nothing stands still and looks fresh. A step of the wall clock is noticed once, for an entry.
 */
import type { Clock } from '../measure/clock.ts';
import type { Instant } from '../measure/quantity.ts';

export interface ClockStep {
  readonly steppedMilliseconds: number;
  /** The time line went along: what was paired with it before is no longer right. */
  readonly jumped: boolean;
}

export interface Arrival {
  now(): Instant;
  /** Time goes on from here where the wall clock lies before it, as after a restart with a clock set back. */
  notBefore(at: Instant): void;
  /** To be asked about once a second. Undefined while the two clocks go alike. */
  step(): ClockStep | undefined;
}

const stepAtLeast = 1000;

export function createArrival(clock: Clock): Arrival {
  const wallLead = (): number => clock.wall() - clock.monotonic();
  /** What the time line is ahead of the clock that does not step: the most that the wall clock ever was. */
  let lead = wallLead();
  let newest = 0;
  let seenWallLead = lead;
  let seenLead = lead;

  const now = (): Instant => {
    lead = Math.max(lead, wallLead());
    newest = Math.max(newest, Math.floor(clock.monotonic() + lead));
    return newest as Instant;
  };

  return {
    now,
    notBefore(at) {
      lead = Math.max(lead, at - clock.monotonic());
      seenLead = lead;
    },
    step() {
      now();
      const steppedMilliseconds = Math.round(wallLead() - seenWallLead);
      const jumped = lead - seenLead > stepAtLeast;
      // Small differences are followed, so that they never add up to what looks like a step.
      seenWallLead = wallLead();
      seenLead = lead;
      return Math.abs(steppedMilliseconds) > stepAtLeast ? { steppedMilliseconds, jumped } : undefined;
    },
  };
}
