/** How long a break may still last, as the coldest place falls now: what a locally heated part does, whatever flows sideways. */

import { isWeldingComplete } from './after/after-welding.ts';
import type { Outlook } from './inside/section-status.ts';
import { minimumNow } from './places.ts';
import type { State } from './state.ts';
import { timeTo, trendPerMinute } from './trend.ts';

/** Undefined while it does not fall, after the last arc, or where no temperature is to be kept, or it is lost already. */
export function breakByTrend(state: State, { governing } = minimumNow(state)): Outlook['breakByTrend'] {
  if (isWeldingComplete(state)) return undefined;
  const limit = state.limits.maintenanceMinimum;
  const measured = state.probes.find(({ probe }) => probe.id === governing?.probe);
  if (limit === undefined || governing === undefined || measured === undefined) return undefined;
  if (governing.temperature <= limit) return undefined;
  const time = timeTo(limit, governing.temperature, trendPerMinute(measured));
  return time === undefined ? undefined : { probe: governing.probe, limit, time };
}
