/** What a break asks for before welding goes on, as a condition of readiness and as what is told of a pass that began without it. */
import type { MilliCelsius, Milliseconds } from '../../measure/quantity.ts';
import type { AfterBreakAsk } from '../../weld/break.ts';
import type { Condition } from '../condition.ts';
import { note } from '../findings.ts';
import type { State } from '../state.ts';
import type { Break } from './break-state.ts';
import type { BreakStatus } from './break-status.ts';

/** Where no maintenance temperature is stated, the minimum stands for it: own choice, and never the milder one. */
export const limitToKeep = ({ limits }: State): MilliCelsius | undefined =>
  limits.maintenanceMinimum ?? limits.preheatMinimum;

function keptOf({ fellAt, unknown }: Break): BreakStatus['kept'] {
  if (fellAt !== undefined) return 'below';
  return unknown === true ? 'not known' : 'warm';
}

/** Undefined where the procedure does not say; a break of which it is not known whether it stayed warm counts as one that fell. */
export function asksOf({ joint }: State, each: Break): readonly AfterBreakAsk[] | undefined {
  const asked = joint.procedure?.breaks;
  return keptOf(each) === 'warm' ? (asked?.keptWarm ?? []) : asked?.fellBelow;
}

/** Asked from the break on until the next pass. */
export function afterBreakCondition(state: State): Condition[] {
  const { list, answered } = state.breaks;
  const unanswered = list.slice(answered);
  if (unanswered.length === 0) return [];
  const id = 'after break';
  const unstated = unanswered.find((each) => isUnstated(state, each));
  if (unstated !== undefined) {
    const reason =
      keptOf(unstated) === 'below' ? 'nothing stated for a cold break' : 'nothing stated for a break not read';
    return [{ id, state: 'not judged', reason, ...numbersOf(state, unstated) }];
  }
  const asking = unanswered.filter((each) => asksOf(state, each)?.includes('inspection') === true);
  if (asking.length === 0) return [];
  const by = state.joint.procedure?.breaks?.inspectedBy;
  const whose = by === undefined ? {} : { missing: [by] };
  if (asking.some((each) => !isInspected(each))) return [{ id, state: 'not met', reason: 'not inspected', ...whose }];
  return asking.some(({ inspection }) => inspection?.result === 'indication')
    ? [{ id, state: 'not met', reason: 'indication found' }]
    : [{ id, state: 'met', reason: 'ok' }];
}

/** A pass began all the same. */
export function noteAfterBreak(state: State, { reason }: Condition, pass: string): void {
  if (reason === 'nothing stated for a cold break' || reason === 'nothing stated for a break not read') {
    const cold = state.breaks.list.slice(state.breaks.answered).find((each) => isUnstated(state, each))!;
    const { probe, value, limit } = numbersOf(state, cold);
    note(state, 'cold break not judged', state.now, {
      pass,
      ...(probe === undefined ? {} : { probe }),
      ...(value === undefined ? {} : { value }),
      ...(limit === undefined ? {} : { limit }),
    });
  } else if (reason === 'indication found') note(state, 'gone on over an indication', state.now, { pass });
  else note(state, 'inspection after a break not shown', state.now, { pass });
}

export function breaksStatus(state: State): BreakStatus[] {
  const limit = limitToKeep(state);
  return state.breaks.list.map((each, index): BreakStatus => {
    const asks = asksOf(state, each);
    const now = each.belowSince === undefined ? 0 : state.now - each.belowSince;
    const inspection = each.inspection !== undefined && isInspected(each) ? each.inspection : undefined;
    return {
      from: each.from,
      ...(each.to === undefined ? {} : { to: each.to }),
      by: each.by,
      ...(each.who === undefined ? {} : { who: each.who }),
      ...(each.reason === undefined ? {} : { reason: each.reason }),
      ...(each.coldest === undefined ? {} : { coldest: each.coldest }),
      ...(limit === undefined ? {} : { limit }),
      kept: keptOf(each),
      below: (each.belowFor + now) as Milliseconds,
      ...(asks === undefined ? {} : { asks }),
      ...(index < state.breaks.answered ? { answered: true } : {}),
      ...(inspection === undefined ? {} : { inspection }),
    };
  });
}

/**
 * Only a fall below what the procedure itself states to be kept wants an answer that it does not give; and a break of which
 * nobody knows whether it was one, since a place that is not read must not look better than a cold one.
 */
const isUnstated = (state: State, each: Break): boolean =>
  asksOf(state, each) === undefined && state.limits.maintenanceMinimum !== undefined && keptOf(each) !== 'warm';

const isInspected = ({ inspection, fellAt }: Break): boolean =>
  inspection !== undefined && (fellAt === undefined || inspection.at >= fellAt);

const numbersOf = (state: State, each: Break): Pick<Condition, 'probe' | 'value' | 'limit' | 'bound'> => ({
  ...coldestOf(each),
  ...(state.limits.maintenanceMinimum === undefined ? {} : { limit: state.limits.maintenanceMinimum }),
});

/** What was read of a break that was not read throughout proves nothing. */
function coldestOf(each: Break): Pick<Condition, 'probe' | 'value' | 'bound'> {
  const { coldest } = each;
  if (coldest === undefined || keptOf(each) !== 'below') return {};
  const { probe, temperature: value, bound } = coldest;
  return { probe, value, ...(bound === undefined ? {} : { bound }) };
}
