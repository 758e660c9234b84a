/** The machine's own time, as a Clock. Only the composition of a station makes one. */
import { uptime } from 'node:os';
import type { Clock } from '../measure/clock.ts';
import { instant } from '../measure/quantity.ts';

export const machineClock = (): Clock => ({
  wall: () => instant(Date.now()),
  monotonic: () => performance.now(),
  sinceBoot: () => uptime() * 1000,
  after(duration, wake) {
    const timer = setTimeout(wake, duration);
    return () => clearTimeout(timer);
  },
});
