/** A clock that stands still until the test moves it; whoever waits is woken on the way, each at its own time. */
import type { Clock } from '../../server/measure/clock.ts';
import type { Instant } from '../../server/measure/quantity.ts';
import { dayBegins } from './record.ts';

export interface MovedClock extends Clock {
  move(milliseconds: number): void;
  /** Sets the wall clock forward or back; the other one does not step. */
  step(milliseconds: number): void;
  /** The computer sleeps: the clock that does not step stands still meanwhile, as on Linux and macOS. */
  sleep(milliseconds: number): void;
  /** The program stands still: whoever is due meanwhile wakes once, at its end. */
  stall(milliseconds: number): void;
  /** How many wait to be woken. */
  sleepers(): number;
}

export const createMovedClock = (start: number = dayBegins): MovedClock => {
  let passed = 0;
  let wallAtZero = start;
  let slept = 0;
  const sleepers = new Set<{ readonly due: number; readonly wake: () => void }>();
  return {
    wall: () => (wallAtZero + passed) as Instant,
    monotonic: () => passed,
    sinceBoot: () => passed + slept,
    after(duration, wake) {
      const sleeper = { due: passed + duration, wake };
      sleepers.add(sleeper);
      return () => sleepers.delete(sleeper);
    },
    move(milliseconds) {
      const end = passed + milliseconds;
      for (;;) {
        const [next] = [...sleepers].filter(({ due }) => due <= end).sort((a, b) => a.due - b.due);
        if (next === undefined) break;
        sleepers.delete(next);
        passed = Math.max(passed, next.due);
        next.wake();
      }
      passed = end;
    },
    sleep(milliseconds) {
      slept += milliseconds;
      wallAtZero += milliseconds;
    },
    stall(milliseconds) {
      passed += milliseconds;
      for (const sleeper of [...sleepers].filter(({ due }) => due <= passed).sort((a, b) => a.due - b.due))
        if (sleepers.delete(sleeper)) sleeper.wake();
    },
    sleepers: () => sleepers.size,
    step(milliseconds) {
      wallAtZero += milliseconds;
    },
  };
};
