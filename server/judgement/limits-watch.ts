/** The limits that hold at all times: the highest temperature allowed anywhere, on every trusted probe on the part. */
import type { MilliCelsius } from '../measure/quantity.ts';
import { keepsMaximum } from './compare.ts';
import { hiddenExcess } from './distrust.ts';
import { bandOf } from './measuring/guard.ts';
import { minimumNow, onPart } from './places.ts';
import { isReadyNow } from './readiness.ts';
import { rules } from './rules.ts';
import { type Extreme, isTrusted, type State } from './state.ts';
import { tellLasting } from './watches.ts';

export function settleLimits(state: State): void {
  settleHighest(state);
  if (state.minimumFirstReachedAt === undefined && minimumNow(state).state === 'met') {
    state.minimumFirstReachedAt = state.now;
  }
  state.everReady ||= isReadyNow(state);
}

function settleHighest(state: State): void {
  const limit = state.limits.highest;
  if (limit === undefined) return;
  for (const each of onPart(state)) {
    const reading = isTrusted(state, each) ? each.good! : undefined;
    const kept = reading === undefined ? 'kept' : keepsMaximum(reading.temperature, limit, bandOf(state, reading));
    // Nothing is told, and nothing was that could end.
    if (kept === 'kept' && state.watches.size === 0) continue;
    const { id } = each.probe;
    const now = reading === undefined ? undefined : { probe: id, temperature: reading.temperature };
    lasts(state, id, 'above highest temperature', kept === 'broken', limit, now);
    lasts(state, id, 'within guard band', kept === 'within the band', limit, now);
  }
  // Only an untrusted probe shows it: that is neither an excess nor none.
  const hidden = hiddenExcess(state);
  lasts(state, 'untrusted', 'highest temperature not judged', hidden !== undefined, limit, hidden);
}

function lasts(
  state: State,
  place: string,
  kind: 'above highest temperature' | 'within guard band' | 'highest temperature not judged',
  holds: boolean,
  limit: MilliCelsius,
  now: Extreme | undefined,
): void {
  const key = `highest ${place}/${kind}`;
  tellLasting(state, key, holds, rules.confirmFor, { kind, detail: { limit }, now, worse: 'higher' });
}
