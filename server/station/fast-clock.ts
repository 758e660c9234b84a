/** A clock that starts in the past and is moved by hand until it has caught up; from then on it follows the machine's. */

import type { Clock } from '../measure/clock.ts';
import { after, type Instant, instant, type Milliseconds } from '../measure/quantity.ts';

export interface FastClock extends Clock {
  /** How far behind the machine's clock. */
  lag(): number;
  /** Moves on, waking on the way whoever asked, each at its own time. */
  move(milliseconds: number): void;
  /** The same at one stroke, as for a machine that slept: whoever is due meanwhile wakes once, at its end. */
  jump(milliseconds: number): void;
  /** Goes on with the machine's clock from here. */
  follow(): void;
}

interface Sleeper {
  readonly due: Instant;
  readonly wake: () => void;
  timer?: NodeJS.Timeout;
}

export function createFastClock(behindMilliseconds: number): FastClock {
  const monotonicOrigin = performance.now();
  const origin = instant(Date.now() - behindMilliseconds);
  let now = origin;
  let followed: { readonly at: Instant; readonly real: number } | undefined;
  const sleepers = new Set<Sleeper>();

  const wall = (): Instant => (followed === undefined ? now : after(followed.at, Date.now() - followed.real));
  const arm = (sleeper: Sleeper): void => {
    sleeper.timer = setTimeout(
      () => {
        sleepers.delete(sleeper);
        sleeper.wake();
      },
      Math.max(0, sleeper.due - wall()),
    );
  };
  const nextBefore = (until: Instant): Sleeper | undefined =>
    [...sleepers].filter((each) => each.due <= until).sort((a, b) => a.due - b.due)[0];

  return {
    wall,
    monotonic: () => monotonicOrigin + (wall() - origin),
    after(duration: Milliseconds, wake) {
      const sleeper: Sleeper = { due: after(wall(), duration), wake };
      sleepers.add(sleeper);
      if (followed !== undefined) arm(sleeper);
      return () => {
        sleepers.delete(sleeper);
        clearTimeout(sleeper.timer);
      };
    },
    lag: () => Date.now() - wall(),
    move(milliseconds) {
      const until = after(now, milliseconds);
      for (let sleeper = nextBefore(until); sleeper !== undefined; sleeper = nextBefore(until)) {
        sleepers.delete(sleeper);
        now = Math.max(now, sleeper.due) as Instant;
        sleeper.wake();
      }
      now = until;
    },
    jump(milliseconds) {
      now = after(now, milliseconds);
      for (const sleeper of [...sleepers].filter(({ due }) => due <= now).sort((a, b) => a.due - b.due)) {
        // One that woke before it may have put it off.
        if (sleepers.delete(sleeper)) sleeper.wake();
      }
    },
    follow() {
      followed = { at: now, real: Date.now() };
      for (const sleeper of sleepers) arm(sleeper);
    },
  };
}
