/**
 * A probe leaves the judgement, by a named person or by the procedure's rule, and comes back by a named person.
 * Its readings are kept. Where it alone would show an excess (too hot, uneven), the excess becomes not judged and
 * never met: distrusting a probe must not make a joint look better. Neither must losing one: what it read last counts
 * so until the place is read again.
 */
import { keepsMaximum } from './compare.ts';
import { close, open } from './findings.ts';
import { bandOf } from './measuring/guard.ts';
import { onPart } from './places.ts';
import { type Extreme, isTrusted, type ProbeState, type State } from './state.ts';

export function distrust(state: State, id: string, by: 'person' | 'rule', who?: string): void {
  const probe = probeNamed(state, id);
  if (probe === undefined || probe.distrusted !== undefined) return;
  probe.distrusted = { since: state.now, by, ...(who === undefined ? {} : { who }) };
  probe.distrustKey = open(state, 'probe distrusted', state.now, { probe: id });
}

export function trustAgain(state: State, id: string): void {
  const probe = probeNamed(state, id);
  if (probe?.distrusted === undefined) return;
  if (probe.distrustKey !== undefined) close(state, probe.distrustKey, state.now);
  delete probe.distrusted;
  delete probe.distrustKey;
}

/** The hottest untrusted probe on the part that reads, or last read, above the highest temperature allowed. */
export function hiddenExcess(state: State): Extreme | undefined {
  const limit = state.limits.highest;
  if (limit === undefined) return undefined;
  return hottestUntrusted(state, onPart(state), limit);
}

/** The hottest of the probes that are distrusted or not read any more, where its last reading lies above the limit. */
export function hottestUntrusted(
  state: State,
  probes: readonly ProbeState[],
  limit: Extreme['temperature'],
): Extreme | undefined {
  let hottest: Extreme | undefined;
  for (const each of probes) {
    const { good } = each;
    if (good === undefined || isTrusted(state, each)) continue;
    if (keepsMaximum(good.temperature, limit, bandOf(state, good)) === 'kept') continue;
    if (hottest === undefined || good.temperature > hottest.temperature)
      hottest = { probe: each.probe.id, temperature: good.temperature };
  }
  return hottest;
}

const probeNamed = (state: State, id: string): ProbeState | undefined =>
  state.probes.find((each) => each.probe.id === id);
