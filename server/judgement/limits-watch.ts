/** The limits that hold at all times: the highest temperature allowed anywhere, on every trusted probe on the part. */
import { elapsed, type Instant, type MilliCelsius } from '../measure/quantity.ts';
import { keepsMaximum, reaches } from './compare.ts';
import { hiddenExcess } from './distrust.ts';
import { close, open } from './findings.ts';
import { bandOf } from './measuring/guard.ts';
import { minimumNow, onPart } from './places.ts';
import { isReadyNow } from './readiness.ts';
import { rules } from './rules.ts';
import { isTrusted, type ProbeState, pendingSince, type State } from './state.ts';

export function settleLimits(state: State): void {
  settleHighest(state);
  settleHidden(state);
  if (state.minimumFirstReachedAt === undefined && minimumNow(state).state === 'met') {
    state.minimumFirstReachedAt = state.now;
  }
  state.everReady ||= isReadyNow(state);
}

export function limitsDue(state: State): Instant[] {
  return Object.entries(state.pending)
    .filter(([key]) => key.startsWith(highestPrefix))
    .map(([, since]) => (since + rules.confirmFor) as Instant);
}

const highestPrefix = 'highest/';
const hiddenKey = `${highestPrefix}/distrusted`;

function settleHighest(state: State): void {
  const limit = state.limits.highest;
  if (limit === undefined) return;
  for (const probe of onPart(state)) {
    const reading = isTrusted(state, probe) ? probe.good! : undefined;
    const kept = reading === undefined ? 'kept' : keepsMaximum(reading.temperature, limit, bandOf(state, reading));
    watch(state, probe, 'above highest temperature', kept === 'broken', limit);
    watch(state, probe, 'within guard band', kept === 'within the band', limit);
  }
}

/** Only a distrusted probe reads above the highest temperature: that is neither an excess nor none. */
function settleHidden(state: State): void {
  const hidden = hiddenExcess(state);
  const kind = 'highest temperature not judged';
  const standing = state.findings.find((each) => each.kind === kind && each.to === undefined);
  if (hidden === undefined) {
    delete state.pending[hiddenKey];
    if (standing !== undefined) close(state, standing.key, state.now);
    return;
  }
  if (standing !== undefined) return;
  const since = pendingSince(state, hiddenKey);
  if (elapsed(since, state.now) < rules.confirmFor) return;
  open(state, kind, since, { probe: hidden.probe, value: hidden.temperature, limit: state.limits.highest! });
}

/** A finding once it has lasted for longer than a spike, with the highest that it came to. */
function watch(
  state: State,
  { probe: { id }, good }: ProbeState,
  kind: 'above highest temperature' | 'within guard band',
  holds: boolean,
  limit: MilliCelsius,
): void {
  const key = kind === 'above highest temperature' ? `${highestPrefix}${id}` : `${highestPrefix}${kind}/${id}`;
  const standing = state.findings.find(
    (each) => each.kind === kind && each.probe === id && each.pass === undefined && each.to === undefined,
  );
  if (!holds) {
    delete state.pending[key];
    if (standing !== undefined) close(state, standing.key, state.now);
    return;
  }
  const value = good!.temperature;
  if (standing !== undefined) {
    if (reaches(value, (standing.value ?? value) as typeof value)) standing.value = value;
    return;
  }
  const since = pendingSince(state, key);
  if (elapsed(since, state.now) >= rules.confirmFor) open(state, kind, since, { probe: id, value, limit });
}
