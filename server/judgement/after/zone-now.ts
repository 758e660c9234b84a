/** All places that answer for the minimum, against a temperature of its own: every one has to be read. */
import type { MilliCelsius } from '../../measure/quantity.ts';
import { keepsMaximum, keepsMinimum } from '../compare.ts';
import type { Standing } from '../hold.ts';
import { bandOf } from '../measuring/guard.ts';
import { coldestOf, hottestOf, minimumProbes } from '../places.ts';
import { type Extreme, isTrusted, type State } from '../state.ts';

export interface ZoneNow extends Standing {
  /** The coldest place against a minimum, the hottest against a maximum. */
  readonly governing?: Extreme;
}

export const zoneReaches = (state: State, minimum: MilliCelsius): ZoneNow =>
  zoneNow(state, coldestOf(state, minimumProbes(state)), (temperature, band) =>
    keepsMinimum(temperature, minimum, band),
  );

/** `below` then means above: what the limit does not allow. */
export const zoneStaysWithin = (state: State, maximum: MilliCelsius): ZoneNow =>
  zoneNow(state, hottestOf(state, minimumProbes(state)), (temperature, band) =>
    keepsMaximum(temperature, maximum, band),
  );

function zoneNow(
  state: State,
  governing: Extreme | undefined,
  kept: (temperature: MilliCelsius, band: ReturnType<typeof bandOf>) => ReturnType<typeof keepsMinimum>,
): ZoneNow {
  const probes = minimumProbes(state);
  const trusted = probes.filter((each) => isTrusted(state, each));
  const missing = probes.filter((each) => !isTrusted(state, each)).map(({ probe }) => probe.id);
  const all = trusted.map(({ good }) => kept(good!.temperature, bandOf(state, good!)));
  const below = all.includes('broken');
  const at = governing === undefined ? {} : { governing };
  if (below) return { state: 'not met', below, missing, near: false, ...at };
  const near = missing.length === 0 && all.includes('within the band');
  const isJudged = probes.length > 0 && missing.length === 0 && !near;
  return { state: isJudged ? 'met' : 'not judged', below, missing, near, ...at };
}
