/** The interpass temperature right now: what is measured at interpass places, by probe or by hand. A zone probe never stands for it. */
import type { Interpass } from './assessment.ts';
import { type Kept, keepsMaximum } from './compare.ts';
import { hottestUntrusted } from './distrust.ts';
import type { HandReading } from './measuring/hand-reading.ts';
import { handKeepsMaximum, handNow } from './measuring/hand-readings.ts';
import { bandAt, hottestOf, withUse } from './places.ts';
import { rules } from './rules.ts';
import { type Extreme, isTrusted, type State } from './state.ts';
import { timeTo, trendPerMinute } from './trend.ts';

type Maximum = State['limits']['interpassMaximum'];
type Measured = Pick<Interpass, 'probe' | 'temperature' | 'bound' | 'trendPerMinute'> & {
  readonly temperature: number;
  readonly by: 'probe' | 'contact';
  readonly kept: Kept;
};

export type InterpassNow = Interpass & {
  readonly by?: 'probe' | 'contact';
  /** No trusted reading is above the maximum, and the last one of an untrusted probe is. */
  readonly hidden?: Extreme;
};

/** The worst of them: above the maximum, then neither proven, then the hottest. */
export function interpassNow(state: State, limit = state.limits.interpassMaximum): InterpassNow {
  const hands = handNow(state, 'interpass');
  const probe = hottestProbe(state, limit);
  const measured = [...(probe === undefined ? [] : [probe]), ...hands.flatMap((each) => byHand(state, each, limit))];
  const worst = measured.sort((a, b) => rank[a.kept] - rank[b.kept] || b.temperature - a.temperature)[0];
  // A reading by hand stands in for what is hidden.
  const hidden =
    limit === undefined || hands.length > 0 ? undefined : hottestUntrusted(state, withUse(state, 'interpass'), limit);
  if (hidden !== undefined && (worst === undefined || worst.kept === 'kept')) return { state: 'not judged', hidden };
  if (worst === undefined) return { state: 'not judged' };
  const { kept, ...reading } = worst;
  const timeToWindow =
    limit !== undefined && kept === 'broken' && reading.bound === undefined
      ? timeTo(limit, reading.temperature, reading.trendPerMinute)
      : undefined;
  return {
    state: kept === 'broken' ? 'too hot' : kept === 'kept' ? 'window' : 'not judged',
    ...reading,
    ...(timeToWindow === undefined ? {} : { timeToWindow }),
  };
}

const rank: Readonly<Record<Kept, number>> = { broken: 0, 'within the band': 1, kept: 2 };

function hottestProbe(state: State, limit: Maximum): Measured | undefined {
  const probes = withUse(state, 'interpass').filter(
    (each) => isTrusted(state, each) && state.now - each.good!.at <= rules.interpassReadingAge,
  );
  const hottest = hottestOf(state, probes, 'with its band');
  if (hottest === undefined) return undefined;
  const trend = trendPerMinute(state.probes.find((each) => each.probe.id === hottest.probe)!);
  return {
    by: 'probe',
    ...hottest,
    kept: limit === undefined ? 'kept' : keepsMaximum(hottest.temperature, limit, bandAt(state, hottest)),
    ...(trend === undefined ? {} : { trendPerMinute: trend }),
  };
}

/** A bound that says nothing of the maximum is no reading of it. */
function byHand(state: State, each: HandReading, limit: Maximum): Measured[] {
  const kept = limit === undefined ? 'kept' : handKeepsMaximum(state, each, limit);
  if (kept === undefined) return [];
  const { instrument, temperature, bound } = each;
  return [{ by: 'contact', probe: instrument, temperature, kept, ...(bound === undefined ? {} : { bound }) }];
}
