/**
 * When something came in, on the time line that all joints of this station share. It follows the wall clock
 * forward and never steps back: while the wall clock lies behind, time goes on by the clock that does not step,
 * so that nothing stands still and looks fresh. A step of the wall clock is noticed once, for an entry.
 */
import type { Clock } from '../measure/clock.ts';
import type { Instant } from '../measure/quantity.ts';
import type { StationEvent } from '../weld/entry.ts';

export interface ClockStep {
  /** Of the wall clock against the time that passed; 0 if it did not step. */
  readonly steppedMilliseconds: number;
  /** For the record: the step, and for how long the computer slept or the program stood still. */
  readonly events: readonly StationEvent[];
  /** The time line went along: what was paired with it before is no longer right. */
  readonly jumped: boolean;
}

export interface ClockStepped {
  readonly at: Instant;
  readonly steppedMilliseconds: number;
}

export interface Arrival {
  now(): Instant;
  /** Time goes on from here where the wall clock lies before it, as after a restart with a clock set back. */
  notBefore(at: Instant): void;
  /** Once a second, whatever else may fail: a beat that comes late shows that the program stood still. */
  beat(): void;
  /** To be asked about once a second. Undefined while the clocks go alike and nothing stood still. */
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
  let seenSlept = sleptOf(clock);
  let beatAt = clock.monotonic();
  let stood = 0;

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
    beat() {
      const passed = clock.monotonic() - beatAt;
      if (clock.sinceBoot !== undefined && passed > standsAtLeast) stood += Math.round(passed);
      beatAt = clock.monotonic();
    },
    step() {
      now();
      const slept = sleptOf(clock) - seenSlept;
      const sleptMilliseconds = slept > standsAtLeast ? Math.round(slept) : 0;
      const stoodMilliseconds = sleptMilliseconds + stood;
      // A clock that stands in sleep makes the wall clock look as if it had stepped.
      const stepped = Math.round(wallLead() - seenWallLead - sleptMilliseconds);
      // Also after a sleep: whether a board slept too is not known.
      const jumped = lead - seenLead > stepAtLeast;
      // Small differences are followed, so that they never add up to what looks like a step.
      seenWallLead = wallLead();
      seenLead = lead;
      seenSlept += slept;
      stood = 0;
      const steppedMilliseconds = Math.abs(stepped) > stepAtLeast ? stepped : 0;
      const events: StationEvent[] = [];
      if (stoodMilliseconds !== 0) events.push({ kind: 'suspended', milliseconds: stoodMilliseconds });
      if (steppedMilliseconds !== 0) events.push({ kind: 'clock', steppedMilliseconds });
      return events.length === 0 ? undefined : { steppedMilliseconds, events, jumped };
    },
  };
}

/** What the clock that runs in sleep is ahead of the one that does not step; 0 where the system has none, or the other runs on too. */
const sleptOf = (clock: Clock): number => (clock.sinceBoot?.() ?? clock.monotonic()) - clock.monotonic();

/** Five beats that did not come: a pause of the program that a reader of the record should know of. Own choice. */
const standsAtLeast = 5_000;
