/** How fast a probe changes, and when it will cross a limit if it goes on so. For the screen; no verdict hangs on it. */
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import { minimumProbes } from './places.ts';
import { rules } from './rules.ts';
import { isTrusted, type ProbeState, type State } from './state.ts';

/** Thousandths of a kelvin per minute over the trend window; absent while the readings span too little. */
export function trendPerMinute(probe: ProbeState): Millikelvin | undefined {
  const [firstAt, first] = probe.recent;
  const last = probe.good;
  if (firstAt === undefined || first === undefined || last === undefined) return undefined;
  const span = last.at - firstAt;
  if (span < rules.trendAtLeast) return undefined;
  return Math.round(((last.temperature - first) * 60_000) / span) as Millikelvin;
}

/** Time until the limit is reached at this trend; absent if it moves away or hardly moves. */
export function timeTo(
  limit: MilliCelsius,
  from: MilliCelsius,
  trend: Millikelvin | undefined,
): Milliseconds | undefined {
  if (trend === undefined || Math.abs(trend) < rules.trendWorthTelling) return undefined;
  const time = ((limit - from) * 60_000) / trend;
  return time > 0 ? (Math.round(time) as Milliseconds) : undefined;
}

/** After each good reading: begun by a clear rise over the window, ended where hardly any is left. */
export function watchWarming(probe: ProbeState): void {
  const [firstAt, first] = probe.recent;
  const { at, temperature } = probe.good!;
  const rise = firstAt === undefined || at - firstAt < rules.trendAtLeast ? 0 : temperature - first!;
  probe.warming = rise >= (probe.warming === true ? rules.warmingWhile : rules.warmingFrom);
}

/** A required place gets warmer: the part is being heated, whether that was entered or not. */
export const isWarming = (state: State): boolean =>
  minimumProbes(state).some((each) => each.warming === true && isTrusted(state, each));
