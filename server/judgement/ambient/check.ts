/**
 * The check at ambient on its way through time: what the newest one found of each probe that still hangs on the same
 * wire, what that means for readiness, and what is told where it was not made or found something.
 */
import { elapsed, type Instant } from '../../measure/quantity.ts';
import type { Act } from '../../weld/entry.ts';
import type { Finding } from '../assessment.ts';
import type { Condition } from '../condition.ts';
import { close, open, remove } from '../findings.ts';
import { rules } from '../rules.ts';
import type { State } from '../state.ts';
import type { AmbientStatus } from './status.ts';
import { ambientOutcomes, type ProbeAtAmbient } from './touch.ts';

export interface AmbientState {
  readonly at: Instant;
  readonly who: string;
  readonly act: Act & { kind: 'ambient check' };
  /** Board and channel of each probe when it was checked. */
  readonly wires: { readonly [probe: string]: string };
}

/** A log from elsewhere has no place for it, so that there it is asked only where the procedure asks. */
export const ambientAsked = ({ joint, source }: State): AmbientStatus['asked'] =>
  joint.procedure?.ambientCheck ?? (source.kind === 'imported' ? 'not asked' : 'remarked');

export function takeAmbientCheck(state: State, act: Act & { kind: 'ambient check' }, who: string): void {
  const wires = Object.fromEntries(state.probes.map(({ probe }) => [probe.id, wireOf(probe)]));
  state.ambient = { at: state.now, who, act, wires };
  for (const finding of state.findings) {
    const isOfCheck = finding.kind === 'ambient check not made' || finding.kind === 'ambient check failed';
    if (isOfCheck && finding.to === undefined) close(state, finding.key, state.now);
  }
  settleAmbient(state);
  if (ambientAsked(state) === 'not asked') return;
  const { probes, isOffAir, fromAir } = ambientOutcomes(act);
  for (const { probe, outcome, other, apart } of probes.filter(isWrong)) {
    const value = outcome === 'off at rest' ? { value: apart! } : {};
    open(state, 'ambient check failed', state.now, {
      probe,
      outcome,
      ...(other === undefined ? {} : { against: other }),
      ...value,
    });
  }
  if (isOffAir) open(state, 'ambient check failed', state.now, { value: fromAir! });
}

/**
 * A tip in a hand reads as no part does; what was suspected of it then, and is over, was the hand. A suspicion may end
 * long after it was last borne out, so that it is looked for after the check as well.
 */
export function settleAmbient(state: State): void {
  const { ambient } = state;
  if (ambient === undefined || elapsed(ambient.at, state.now) > rules.handLookedFor) return;
  if (state.findings.some((each) => isByHand(each, ambient.act))) {
    remove(state, (finding) => !isByHand(finding, ambient.act));
  }
}

const isByHand = ({ kind, probe, from, to }: Finding, { touches }: AmbientState['act']): boolean =>
  kind === 'probe suspect' &&
  to !== undefined &&
  touches.some(
    (touch) =>
      (touch.probe === probe || touch.readings.some((each) => each.probe === probe)) &&
      from >= touch.from - rules.handFeltFor &&
      to <= touch.until + rules.handFeltFor,
  );

/** Heat goes on, or an arc is struck: from here on nobody can see any more how the probes were at ambient. */
export function ambientMissed(state: State): void {
  if (ambientAsked(state) === 'not asked') return;
  const isTold = state.findings.some((each) => each.kind === 'ambient check not made' && each.to === undefined);
  if (isTold) return;
  if (state.ambient === undefined) open(state, 'ambient check not made', state.now);
  else for (const probe of unchecked(state)) open(state, 'ambient check not made', state.now, { probe });
}

/** Asked for only where the procedure requires it; of the probes that the joint is judged by. */
export function ambientCondition(state: State): Condition[] {
  if (ambientAsked(state) !== 'required') return [];
  const id = 'ambient check';
  if (state.ambient === undefined) return [{ id, state: 'not judged', reason: 'ambient check not made' }];
  const judged = state.probes.filter(({ probe, distrusted }) => judgedBy.has(probe.use) && distrusted === undefined);
  const found = new Map(checkedProbes(state).map((each) => [each.probe, each]));
  const { isOffAir, fromAir } = ambientOutcomes(state.ambient.act);
  if (isOffAir) return [{ id, state: 'not judged', reason: 'ambient check failed', value: fromAir! }];
  const missing = judged
    .filter(({ probe }) => found.get(probe.id)?.outcome !== 'in order')
    .map(({ probe }) => probe.id);
  return missing.length === 0
    ? [{ id, state: 'met', reason: 'ok' }]
    : [{ id, state: 'not judged', reason: 'ambient check failed', missing }];
}

export function ambientStatus(state: State): AmbientStatus | undefined {
  const asked = ambientAsked(state);
  const { ambient } = state;
  if (ambient === undefined) return asked === 'not asked' ? undefined : { asked, unchecked: unchecked(state) };
  const { probes: _all, ...rest } = ambientOutcomes(ambient.act);
  const { airCelsius, airReadWith } = ambient.act;
  return {
    asked,
    unchecked: unchecked(state),
    made: {
      at: ambient.at,
      who: ambient.who,
      airCelsius,
      ...(airReadWith === undefined ? {} : { airReadWith }),
      ...rest,
      probes: checkedProbes(state),
    },
  };
}

const judgedBy: ReadonlySet<string> = new Set(['zone', 'interpass', 'opposite face']);

const wireOf = ({ board, channel }: State['probes'][number]['probe']): string => `${board}/${channel}`;

/** What the newest check found of probes that are still the joint's, on the wire that was checked. */
function checkedProbes(state: State): ProbeAtAmbient[] {
  const { ambient } = state;
  if (ambient === undefined) return [];
  const same = new Set(
    state.probes.filter(({ probe }) => ambient.wires[probe.id] === wireOf(probe)).map(({ probe }) => probe.id),
  );
  return ambientOutcomes(ambient.act).probes.filter(({ probe }) => same.has(probe));
}

function unchecked(state: State): string[] {
  const checked = new Set(checkedProbes(state).map(({ probe }) => probe));
  return state.probes.map(({ probe }) => probe.id).filter((id) => !checked.has(id));
}

const isWrong = ({ outcome }: ProbeAtAmbient): boolean => outcome !== 'in order';
