/**
 * Alarms: what needs a person now. Each waits its delay, comes back only past its deadband, and leaves the
 * list only when it is normal again and a named person has acknowledged it (states of IEC 62682).
 */
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import type { Alarm } from './assessment.ts';
import { reaches, staysWithin } from './compare.ts';
import { hottestOf, minimumNow, onPart } from './places.ts';
import { rules } from './rules.ts';
import { hasBegunWelding, isPassRunning, pendingSince, type State } from './state.ts';

interface Watched {
  readonly key: string;
  readonly kind: Alarm['kind'];
  readonly probe?: string;
  /** Wrong now. */
  readonly active: boolean;
  /** Right again, past the deadband. */
  readonly clear: boolean;
  readonly delay: number;
  readonly value?: MilliCelsius;
  readonly limit?: MilliCelsius;
}

export function settleAlarms(state: State): void {
  const watched = [...temperatureAlarms(state), ...probeAlarms(state)];
  for (const each of watched) settleOne(state, each);
  // An alarm whose probe left the joint by a revision has nothing left to watch.
  state.alarms = state.alarms.filter((alarm) => watched.some((each) => each.key === alarm.key));
}

export function acknowledge(state: State, key: string, who: string): void {
  const alarm = state.alarms.find((each) => each.key === key);
  if (alarm === undefined) return;
  if (alarm.state === 'returned unacknowledged') {
    state.alarms = state.alarms.filter((each) => each !== alarm);
    return;
  }
  alarm.state = 'active acknowledged';
  alarm.acknowledgedBy = who;
  alarm.acknowledgedAt = state.now;
}

export function alarmsDue(state: State): Instant[] {
  return Object.entries(state.pending)
    .filter(([key]) => key.startsWith(alarmPrefix))
    .map(([, since]) => (since + rules.alarmDelay) as Instant);
}

const alarmPrefix = 'alarm/';

function temperatureAlarms(state: State): Watched[] {
  const list: Watched[] = [];
  const governing = minimumNow(state).governing;
  const minimum = state.limits.preheatMinimum;
  // While the part is being heated for the first time it is below minimum by nature: that is no alarm.
  if (minimum !== undefined && (state.everReady || hasBegunWelding(state))) {
    list.push(lowAlarm('below minimum', governing, minimum));
  }
  const maintenance = state.limits.maintenanceMinimum;
  if (maintenance !== undefined && hasBegunWelding(state) && !isPassRunning(state)) {
    list.push(lowAlarm('maintenance temperature lost', governing, maintenance));
  }
  const highest = state.limits.highest;
  const hottest = hottestOf(state, onPart(state));
  if (highest !== undefined) {
    list.push({
      key: 'above highest temperature',
      kind: 'above highest temperature',
      active: hottest !== undefined && !staysWithin(hottest.temperature, highest),
      clear: hottest !== undefined && hottest.temperature <= highest - rules.alarmDeadbandMillikelvin,
      delay: rules.alarmDelay,
      limit: highest,
      ...(hottest === undefined ? {} : { probe: hottest.probe, value: hottest.temperature }),
    });
  }
  return list;
}

function lowAlarm(
  kind: 'below minimum' | 'maintenance temperature lost',
  governing: { probe: string; temperature: MilliCelsius } | undefined,
  limit: MilliCelsius,
): Watched {
  return {
    key: kind,
    kind,
    active: governing !== undefined && !reaches(governing.temperature, limit),
    clear: governing !== undefined && governing.temperature >= limit + rules.alarmDeadbandMillikelvin,
    delay: rules.alarmDelay,
    limit,
    ...(governing === undefined ? {} : { probe: governing.probe, value: governing.temperature }),
  };
}

/** The three periods that make a trouble are the delay already. */
function probeAlarms(state: State): Watched[] {
  return state.probes
    .filter((each) => each.probe.use !== 'spare')
    .map((each) => {
      const { id } = each.probe;
      const troubled = each.troubleKey !== undefined;
      const silent = each.troubleKind === 'silent';
      const standing = state.alarms.find((alarm) => alarm.probe === id && alarm.key.startsWith('probe/'));
      const kind = troubled ? (silent ? 'probe silent' : 'probe fault') : (standing?.kind ?? 'probe fault');
      return { key: `probe/${id}`, kind, probe: id, active: troubled, clear: !troubled, delay: 0 };
    });
}

function settleOne(state: State, watched: Watched): void {
  const alarm = state.alarms.find((each) => each.key === watched.key);
  const pendingKey = `${alarmPrefix}${watched.key}`;
  if (alarm === undefined) {
    if (!watched.active) {
      delete state.pending[pendingKey];
      return;
    }
    const since = pendingSince(state, pendingKey);
    if (state.now - since < watched.delay) return;
    delete state.pending[pendingKey];
    const { key, kind, probe, value, limit } = watched;
    state.alarms.push({
      key,
      kind,
      state: 'active',
      since,
      ...(probe === undefined ? {} : { probe }),
      ...(value === undefined ? {} : { value }),
      ...(limit === undefined ? {} : { limit }),
    });
    return;
  }
  if (watched.active) {
    alarm.kind = watched.kind;
    if (watched.probe !== undefined) alarm.probe = watched.probe;
    if (watched.value !== undefined) alarm.value = watched.value;
    if (alarm.state === 'returned unacknowledged') {
      alarm.state = 'active';
      delete alarm.returnedAt;
    }
    return;
  }
  if (!watched.clear || alarm.state === 'returned unacknowledged') return;
  if (alarm.state === 'active acknowledged') {
    state.alarms = state.alarms.filter((each) => each !== alarm);
    return;
  }
  alarm.state = 'returned unacknowledged';
  alarm.returnedAt = state.now;
}
