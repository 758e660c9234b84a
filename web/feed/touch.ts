/**
 * Fitting probes: who warms a tip with the hand wants to see which place answers. A rise within a few seconds,
 * far above noise and far faster than a part warms, counts as an answer. For the screen only; nothing is judged by it.
 */
import type { LiveReading } from '../../server/screen/contract.ts';

export interface Touch {
  /** Lowest reading of the last seconds, that a rise is measured from. */
  readonly base: { readonly at: number; readonly temperature: number };
  /** When it last stood clearly above that. */
  readonly answeredAt?: number;
}
export type Touches = Readonly<Record<string, Touch>>;

const withinMilliseconds = 20_000;
const riseMillikelvin = 1_500;
const shownMilliseconds = 10_000;

export const takeTouch = (touches: Touches, { probe, at, temperature }: LiveReading): Touches => {
  if (temperature === undefined) return touches;
  const before = touches[probe];
  const base =
    before === undefined || temperature <= before.base.temperature || at - before.base.at > withinMilliseconds
      ? { at, temperature }
      : before.base;
  const rose = temperature - base.temperature >= riseMillikelvin;
  const answeredAt = rose ? at : before?.answeredAt;
  return { ...touches, [probe]: { base, ...(answeredAt === undefined ? {} : { answeredAt }) } };
};

export const answers = (touches: Touches, probe: string, now: number): boolean => {
  const at = touches[probe]?.answeredAt;
  return at !== undefined && now - at < shownMilliseconds;
};
