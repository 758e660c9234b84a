/** What a link counted in the last hour: what is wrong is told of now, not of a cable that was changed weeks ago. */
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';

export interface LatelyCounts {
  readonly linesGood: number;
  readonly linesBad: number;
  readonly linesMissing: number;
  readonly losses: number;
  /** Lines that were the station's own, come back. */
  readonly echoes: number;
}

export interface Lately {
  /** To be called before something is counted. */
  note(): void;
  of(): LatelyCounts;
}

/** soFar: the counts as they stand. */
export function createLately(clock: Clock, soFar: () => LatelyCounts): Lately {
  const stood: { readonly at: number; readonly counts: LatelyCounts }[] = [];
  return {
    note: () => {
      const now = clock.monotonic();
      const last = stood.at(-1);
      if (last !== undefined && now - last.at < limits.latelyStepMilliseconds) return;
      stood.push({ at: now, counts: soFar() });
      if (stood.length > limits.latelyMilliseconds / limits.latelyStepMilliseconds + 1) stood.shift();
    },
    of: () => {
      const counts = soFar();
      const from = clock.monotonic() - limits.latelyMilliseconds;
      // As it stood before the first change of the time asked about; where there was none, as it stands.
      const before = stood.find(({ at }) => at > from)?.counts ?? counts;
      const since = (key: keyof LatelyCounts): number => Math.max(0, counts[key] - before[key]);
      return {
        linesGood: since('linesGood'),
        linesBad: since('linesBad'),
        linesMissing: since('linesMissing'),
        losses: since('losses'),
        echoes: since('echoes'),
      };
    },
  };
}
