/**
 * Once a shift a reading by hand is asked for beside one probe: the one that has gone longest without, in the order of
 * the joint where several are alike. Only while that probe is warm, since what matters is how it reads there. Nothing
 * hangs on it but the history of the probe, and a finding where the two lie further apart than they are uncertain.
 */
import type { Instant, MilliCelsius } from '../../measure/quantity.ts';
import { reaches } from '../compare.ts';
import { rules } from '../rules.ts';
import { isTrusted, type ProbeState, type State } from '../state.ts';
import type { Twin } from './hand-reading.ts';

/** The newest of one probe. */
export type TwinRead = Twin & { readonly at: Instant };

/** The probe that a reading by hand is asked for beside; undefined where none is due. */
export function twinAsked(state: State): { readonly probe: string } | undefined {
  if (state.closedAt !== undefined) return undefined;
  const every = (state.joint.procedure?.twinReadingHours ?? rules.twinReadingHours) * 3_600_000;
  const newest = twinsRead(state);
  if (every === 0 || newest.some(({ at }) => state.now - at < every)) return undefined;
  const lastOf = ({ probe }: ProbeState): number => newest.find((each) => each.probe === probe.id)?.at ?? 0;
  const waiting = state.probes.filter((each) => canBeRead(state, each)).sort((a, b) => lastOf(a) - lastOf(b));
  return waiting[0] === undefined ? undefined : { probe: waiting[0].probe.id };
}

/** The newest twin reading of each probe that has one, in the order of the joint. */
export function twinsRead(state: State): TwinRead[] {
  const newest = new Map<string, TwinRead>();
  for (const { at, twin } of state.hand) if (twin !== undefined) newest.set(twin.probe, { ...twin, at });
  return state.probes.flatMap(({ probe }) => newest.get(probe.id) ?? []);
}

function canBeRead(state: State, each: ProbeState): boolean {
  const { use, place } = each.probe;
  const answers = use === 'zone' || use === 'opposite face' || use === 'interpass';
  const warm = state.limits.preheatMinimum ?? (rules.twinWarmMilliCelsius as MilliCelsius);
  return answers && place !== undefined && isTrusted(state, each) && reaches(each.good!.temperature, warm);
}
