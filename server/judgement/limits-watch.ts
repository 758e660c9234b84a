/** The limits that hold at all times: the highest temperature allowed anywhere, on every trusted probe on the part. */
import { elapsed, type Instant } from '../measure/quantity.ts';
import { reaches, staysWithin } from './compare.ts';
import { hiddenExcess } from './distrust.ts';
import { close, open } from './findings.ts';
import { minimumNow, onPart } from './places.ts';
import { conditions, isReady } from './readiness.ts';
import { rules } from './rules.ts';
import { isTrusted, pendingSince, type State } from './state.ts';

export function settleLimits(state: State): void {
  settleHighest(state);
  settleHidden(state);
  if (state.minimumFirstReachedAt === undefined && minimumNow(state).state === 'met') {
    state.minimumFirstReachedAt = state.now;
  }
  if (!state.everReady) state.everReady = isReady(conditions(state));
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
    const { id } = probe.probe;
    const key = `${highestPrefix}${id}`;
    const standing = state.findings.find(
      (each) => each.kind === 'above highest temperature' && each.probe === id && each.to === undefined,
    );
    if (!isTrusted(state, probe) || staysWithin(probe.good!.temperature, limit)) {
      delete state.pending[key];
      if (standing !== undefined) close(state, standing.key, state.now);
      continue;
    }
    const value = probe.good!.temperature;
    if (standing !== undefined) {
      if (reaches(value, (standing.value ?? value) as typeof value)) standing.value = value;
      continue;
    }
    const since = pendingSince(state, key);
    if (elapsed(since, state.now) >= rules.confirmFor)
      open(state, 'above highest temperature', since, { probe: id, value, limit });
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
