/**
 * How fast the zone warms before the first pass and cools after the last, place by place. A rate is the change over a
 * quarter of an hour, so that noise and a heater that switches make none. No standard limits the rate of a preheat: only
 * what the procedure states is judged.
 */
import type { MilliCelsius } from '../../measure/quantity.ts';
import { staysWithin } from '../compare.ts';
import { close, open } from '../findings.ts';
import { minimumProbes } from '../places.ts';
import { rules } from '../rules.ts';
import { hasBegunWelding, isTrusted, type ProbeState, type State } from '../state.ts';
import { endWatch, tellLasting } from '../watches.ts';

/** Called where readings came in; nothing changes between two readings. */
export function settleRates(state: State): void {
  const watched = watchedRate(state);
  for (const each of minimumProbes(state)) {
    watchUnread(state, each, watched);
    if (watched === undefined || !isTrusted(state, each)) {
      endRate(state, each.probe.id);
      continue;
    }
    mark(state, each);
    const rate = rateOf(state, each);
    const isFast = rate !== undefined && !staysWithin((watched.sign * rate.perHour) as MilliCelsius, watched.most);
    const counts = rate !== undefined && rate.hotter >= (watched.above ?? Number.NEGATIVE_INFINITY);
    if (!isFast || !counts) {
      endRate(state, each.probe.id);
      continue;
    }
    const value = watched.sign * rate.perHour;
    const key = state.after.tooFast[each.probe.id];
    const standing = state.findings.find((finding) => finding.key === key);
    if (standing === undefined) {
      state.after.tooFast[each.probe.id] = open(state, watched.kind, state.now, {
        probe: each.probe.id,
        value,
        limit: watched.most,
      });
    } else if (value > (standing.value ?? value)) standing.value = value as MilliCelsius;
  }
}

/** A new stretch begins: what was marked in the one before counts no more. */
export function forgetRates(state: State): void {
  for (const probe of Object.keys(state.after.tooFast)) endRate(state, probe);
  for (const { probe } of state.probes) endWatch(state, unreadKey(probe.id));
  state.after.marks = {};
}

/** A place that is not read for longer than a rate is measured over: how fast it was is not known. */
function watchUnread(state: State, each: ProbeState, watched: Watched | undefined): void {
  const isUnread = watched !== undefined && !isTrusted(state, each) && isAsked(state, each, watched);
  const kind = watched?.kind === 'heated too fast' ? 'heating rate not judged' : 'cooling rate not judged';
  const { id: probe } = each.probe;
  tellLasting(state, unreadKey(probe), isUnread, rules.rateWindow + 1, { kind, detail: { probe } });
}

const unreadKey = (probe: string): string => `rate/${probe}`;

/** While it can be heated; and of what cools, as long as it was last read where a rate counts. */
function isAsked(state: State, { good }: ProbeState, { kind, above }: Watched): boolean {
  if (kind === 'heated too fast') return state.underway && state.heat !== 'off';
  return good === undefined || good.temperature >= (above ?? rules.rateAskedAbove);
}

interface Watched {
  readonly kind: 'heated too fast' | 'cooled too fast';
  readonly sign: 1 | -1;
  /** Thousandths of a kelvin per hour. */
  readonly most: MilliCelsius;
  readonly above?: MilliCelsius;
}

function watchedRate(state: State): Watched | undefined {
  const { procedure } = state.joint;
  const { completedAt, postHeating } = state.after;
  const above = procedure?.ratesAboveCelsius;
  const rest = above === undefined ? {} : { above: (above * 1000) as MilliCelsius };
  const limit = (perHour: number) => (perHour * 1000) as MilliCelsius;
  if (!hasBegunWelding(state) && procedure?.heatingMaximumKelvinPerHour !== undefined)
    return { kind: 'heated too fast', sign: 1, most: limit(procedure.heatingMaximumKelvinPerHour), ...rest };
  if (completedAt === undefined || procedure?.coolingMaximumKelvinPerHour === undefined) return undefined;
  const isPostHeated = state.joint.postHeating === undefined || postHeating?.endedAt !== undefined;
  return isPostHeated
    ? { kind: 'cooled too fast', sign: -1, most: limit(procedure.coolingMaximumKelvinPerHour), ...rest }
    : undefined;
}

function mark({ after }: State, { probe: { id }, good }: ProbeState): void {
  const marks = after.marks[id] ?? [];
  if (marks.length > 0 && good!.at - marks.at(-2)! < rules.rateMarkedEvery) return;
  marks.push(good!.at, good!.temperature);
  while (marks.length > 2 && marks[2]! <= good!.at - rules.rateWindow) marks.splice(0, 2);
  after.marks[id] = marks;
}

/** Over the whole window; absent while less is marked. */
function rateOf(
  { after }: State,
  { probe: { id }, good }: ProbeState,
): { perHour: number; hotter: number } | undefined {
  const [at, temperature] = after.marks[id] ?? [];
  if (at === undefined || temperature === undefined || good!.at - at < rules.rateWindow) return undefined;
  const perHour = Math.round(((good!.temperature - temperature) * 3_600_000) / (good!.at - at));
  return { perHour, hotter: Math.max(temperature, good!.temperature) };
}

function endRate(state: State, probe: string): void {
  const key = state.after.tooFast[probe];
  if (key === undefined) return;
  close(state, key, state.now);
  delete state.after.tooFast[probe];
}
