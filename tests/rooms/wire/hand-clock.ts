/** A clock that the test moves. Between two wakes it lets what is under way settle. */
import type { Clock } from '../../../server/measure/clock.ts';
import type { Instant } from '../../../server/measure/quantity.ts';

export interface HandClock extends Clock {
  advance(milliseconds: number): Promise<void>;
  /** Timers that wait. */
  waiting(): number;
}

/** Lets all promises and stream ticks that are under way run to their end. */
export const settled = async (): Promise<void> => {
  for (let turn = 0; turn < 4; turn += 1) await new Promise((resolve) => setImmediate(resolve));
};

export const createHandClock = (start = 1_700_000_000_000): HandClock => {
  let now = 0;
  let timers: { readonly at: number; readonly wake: () => void }[] = [];
  return {
    wall: () => (start + now) as Instant,
    monotonic: () => now,
    after: (duration, wake) => {
      const timer = { at: now + duration, wake };
      timers.push(timer);
      return () => {
        timers = timers.filter((other) => other !== timer);
      };
    },
    waiting: () => timers.length,
    advance: async (milliseconds) => {
      const end = now + milliseconds;
      await settled();
      for (;;) {
        const due = timers.filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)[0];
        if (due === undefined) break;
        timers = timers.filter((timer) => timer !== due);
        now = due.at;
        due.wake();
        await settled();
      }
      now = end;
      await settled();
    },
  };
};
