/** Which probes answer for what, and whether the places that have to be measured are measured. */
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { ProbeUse } from '../weld/probe.ts';
import { type Kept, keepsMinimum } from './compare.ts';
import { bandOf, bandOfDifference } from './measuring/guard.ts';
import type { HandReading } from './measuring/hand-reading.ts';
import { handKeepsMinimum, handNow } from './measuring/hand-readings.ts';
import { rules } from './rules.ts';
import { type Extreme, isTrusted, type ProbeState, type State } from './state.ts';

export const withUse = (state: State, ...uses: ProbeUse[]): ProbeState[] =>
  state.probes.filter((each) => uses.includes(each.probe.use));

/** Zone and opposite-face probes answer for the minimum. A cold one that dies must not make the joint look warm: all are required. */
export const minimumProbes = (state: State): ProbeState[] => withUse(state, 'zone', 'opposite face');

/** Probes that sit on the part; a heater control probe reads the heater, an ambient one the air. */
export const onPart = (state: State): ProbeState[] =>
  state.probes.filter(
    (each) => each.probe.place !== undefined && each.probe.use !== 'heater control' && each.probe.use !== 'ambient',
  );

export interface MinimumNow {
  readonly state: 'met' | 'not met' | 'not judged';
  readonly reason:
    | 'ok'
    | 'below minimum'
    | 'no trusted fresh reading'
    | 'no minimum stated'
    | 'no zone probe'
    | 'within guard band';
  /** A place that is measured is below, whatever is missing beside it: a dead probe never makes a cold joint look better. */
  readonly below: boolean;
  /** The place that governs: the coldest, or with k of n the k-th hottest of the zone. */
  readonly governing?: Extreme;
  readonly missing: readonly string[];
}

/** Does every place that has to be at minimum read so, now? The coldest governs, never a mean. */
export function minimumNow(state: State, minimum = state.limits.preheatMinimum): MinimumNow {
  const hands = handNow(state, 'zone', 'opposite face');
  const missing: string[] = [];
  const hottestFirst = readPlaces(state, 'zone', hands, minimum, missing);
  const zoneMissing = missing.length;
  const zonePlaces = hottestFirst.length + zoneMissing;
  if (zonePlaces === 0) return { state: 'not judged', reason: 'no zone probe', below: false, missing: [] };
  const oppositeFirst = readPlaces(state, 'opposite face', hands, minimum, missing);

  const required = Math.min(state.joint.procedure?.zonePlacesRequired ?? zonePlaces, zonePlaces);
  // Held on anywhere in the zone, a reading below the minimum is a cold place, whatever the probes say. Beside a probe
  // that reads so itself it is no other place.
  const isKnownCold = (hand: HandReading): boolean =>
    [...hottestFirst, ...oppositeFirst].some(({ place, kept }) => place === hand.probe && kept === 'broken');
  const coldByHand =
    minimum === undefined
      ? []
      : hands.filter((each) => handKeepsMinimum(state, each, minimum) === 'broken' && !isKnownCold(each));
  let coldest: Extreme | undefined = hottestFirst[Math.min(required, hottestFirst.length) - 1];
  for (const each of [oppositeFirst.at(-1), ...coldByHand.map(extremeByHand)])
    if (each !== undefined && (coldest === undefined || each.temperature < coldest.temperature)) coldest = each;
  const at = coldest === undefined ? {} : { governing: extremeOf(coldest) };
  if (minimum === undefined) return { state: 'not judged', reason: 'no minimum stated', below: false, missing, ...at };

  const count = (list: Read[], kept: Kept): number => list.filter((each) => each.kept === kept).length;
  const zoneReached = count(hottestFirst, 'kept');
  const zoneNear = count(hottestFirst, 'within the band');
  // With k of n a cold place is below minimum only if the missing ones could not make up the number.
  const below =
    coldByHand.length > 0 || count(oppositeFirst, 'broken') > 0 || zoneReached + zoneNear + zoneMissing < required;
  if ((zoneReached < required && zoneMissing > 0) || missing.length > zoneMissing) {
    return { state: 'not judged', reason: 'no trusted fresh reading', below, missing, ...at };
  }
  if (below) return { state: 'not met', reason: 'below minimum', below, missing, ...at };
  if (zoneReached < required || count(oppositeFirst, 'within the band') > 0) {
    return { state: 'not judged', reason: 'within guard band', below, missing: [], ...at };
  }
  return { state: 'met', reason: 'ok', below, missing: [], ...at };
}

/**
 * How long the places may go unread before that is told: a short gap; and only a spike where one of them read below the
 * minimum when it was last read, so that losing a cold place never looks better than reading it.
 */
export function gapAllowed(state: State, { missing }: MinimumNow, minimum = state.limits.preheatMinimum): Milliseconds {
  const wasBelow = ({ probe: { id }, good }: ProbeState): boolean =>
    missing.includes(id) &&
    good !== undefined &&
    minimum !== undefined &&
    keepsMinimum(good.temperature, minimum, bandOf(state, good)) === 'broken';
  return missing.length > 0 && minimumProbes(state).some(wasBelow) ? rules.confirmFor : rules.gapPauses;
}

/** What a place reads; `probe` names what it was read with. */
interface Read extends Extreme {
  readonly place: string;
  readonly kept: Kept;
}

/** What is read at the places of the use, hottest first; those that are not read are added to the missing. */
function readPlaces(
  state: State,
  use: ProbeUse,
  hands: readonly HandReading[],
  minimum: MilliCelsius | undefined,
  missing: string[],
): Read[] {
  const all: Read[] = [];
  for (const each of state.probes) {
    if (each.probe.use !== use) continue;
    const read = readAt(state, each, hands, minimum);
    if (read === undefined) missing.push(each.probe.id);
    else all.push(read);
  }
  return all.sort((a, b) => b.temperature - a.temperature);
}

/** By its probe; where that is not trusted, by hand beside it. */
function readAt(
  state: State,
  each: ProbeState,
  hands: readonly HandReading[],
  minimum: MilliCelsius | undefined,
): Read | undefined {
  const place = each.probe.id;
  if (isTrusted(state, each)) {
    const { temperature } = each.good!;
    const kept = minimum === undefined ? 'kept' : keepsMinimum(temperature, minimum, bandOf(state, each.good!));
    return { place, probe: place, temperature, kept };
  }
  const beside = hands.find(({ probe }) => probe === place);
  const kept = beside === undefined || minimum === undefined ? undefined : handKeepsMinimum(state, beside, minimum);
  return beside === undefined || kept === undefined ? undefined : { place, ...extremeByHand(beside), kept };
}

const extremeByHand = ({ instrument, temperature, bound }: HandReading): Extreme => ({
  probe: instrument,
  temperature,
  ...(bound === undefined ? {} : { bound }),
});
const extremeOf = ({ probe, temperature, bound }: Extreme): Extreme => ({
  probe,
  temperature,
  ...(bound === undefined ? {} : { bound }),
});

/** Sides that ISO 13916 wants measured at 75 mm or more and that have no such zone probe. Empty at 50 mm or less. */
export function sidesWithoutZoneProbe(state: State): ('A' | 'B')[] {
  const zone = withUse(state, 'zone');
  return (['A', 'B'] as const).filter((side) => {
    const thick = state.joint.parts.some(
      (part) => (part.side === side || part.side === 'both') && part.thicknessMillimetres > rules.thickMillimetres,
    );
    const placed = zone.some(
      ({ probe }) => probe.place?.side === side && probe.place.distanceMillimetres >= rules.zoneDistanceMillimetres,
    );
    return thick && !placed;
  });
}

/** Largest minus smallest of the trusted zone probes of each face that has two or more. */
export function spreads(
  state: State,
  among: typeof isTrusted = isTrusted,
): { face: 'front' | 'back'; spread: Millikelvin; band?: Millikelvin }[] {
  return (['front', 'back'] as const).flatMap((face) => {
    const readings = withUse(state, 'zone')
      .filter((each) => each.probe.place?.face === face && among(state, each))
      .map((each) => each.good!)
      .sort((a, b) => a.temperature - b.temperature);
    const [coldest, hottest] = [readings[0], readings.at(-1)];
    if (coldest === undefined || hottest === undefined || readings.length < 2) return [];
    const band = bandOfDifference(state, coldest, hottest);
    const spread = (hottest.temperature - coldest.temperature) as Millikelvin;
    return [{ face, spread, ...(band === 0 ? {} : { band }) }];
  });
}

/** With what untrusted probes read, or read last: an excess that only they show is not gone with the trust in them. */
export const spreadsOfAll = (state: State): ReturnType<typeof spreads> =>
  spreads(state, (_, { good }) => good !== undefined);

/** Guard band of the newest good reading of the probe. */
export const bandAt = (state: State, { probe }: { readonly probe: string }): Millikelvin =>
  bandOf(state, state.probes.find((each) => each.probe.id === probe)?.good ?? {});

/** Hottest trusted reading of the given probes, if any; with its band, the one that may be hottest. */
export function hottestOf(state: State, probes: ProbeState[], by?: 'with its band'): Extreme | undefined {
  if (by === undefined) return extreme(state, probes, (a, b) => a > b);
  const most = (each: ProbeState): number => each.good!.temperature + bandOf(state, each.good!);
  const trusted = probes.filter((each) => isTrusted(state, each)).sort((a, b) => most(b) - most(a));
  return extreme(state, trusted.slice(0, 1), () => false);
}
export function coldestOf(state: State, probes: ProbeState[]): Extreme | undefined {
  return extreme(state, probes, (a, b) => a < b);
}

function extreme(
  state: State,
  probes: ProbeState[],
  beats: (a: MilliCelsius, b: MilliCelsius) => boolean,
): Extreme | undefined {
  let found: Extreme | undefined;
  for (const each of probes) {
    if (!isTrusted(state, each)) continue;
    const { temperature } = each.good!;
    if (found === undefined || beats(temperature, found.temperature)) found = { probe: each.probe.id, temperature };
  }
  return found;
}
