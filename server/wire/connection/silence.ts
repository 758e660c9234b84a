/** Tells once when nothing was heard for so long, at that moment and not at the next look. */
import type { Clock } from '../../measure/clock.ts';
import { limits } from '../../measure/limits.ts';
import { milliseconds } from '../../measure/quantity.ts';

export interface Silence {
  heard(): void;
  close(): void;
}

/** How long an instrument of that period may say nothing. */
export const silenceOf = (periodMilliseconds: number): number =>
  Math.max(limits.linkSilenceMilliseconds, 3 * periodMilliseconds);

export const watchSilence = (clock: Clock, silence: number, onSilent: () => void): Silence => {
  let heardAt = clock.monotonic();
  let cancel = (): void => {};
  const watch = (): void => {
    const now = clock.monotonic();
    const left = heardAt + silence - now;
    if (left <= 0) {
      onSilent();
      return;
    }
    const due = now + Math.ceil(left);
    cancel = clock.after(milliseconds(due - now), () => {
      // While the station itself stood still nothing could be heard: what waits in the port is read first.
      const late = clock.monotonic() - due;
      if (late >= limits.oversleptMilliseconds) heardAt += late;
      watch();
    });
  };
  watch();
  return {
    heard() {
      heardAt = clock.monotonic();
    },
    close: () => cancel(),
  };
};
