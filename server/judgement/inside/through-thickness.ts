/**
 * Is the minimum reached through every part, and held? The lowest that is possible of the coldest point of each
 * section counts, and the worst section stands for the joint. A section that is not judged is never warm.
 */
import type { Instant, Millikelvin, Milliseconds } from '../../measure/quantity.ts';
import { keepsMinimum } from '../compare.ts';
import type { Condition } from '../condition.ts';
import { beginHold, holdDue, passedOf, type Standing, settleHold, stopped } from '../hold.ts';
import { bandOf, isGuarded } from '../measuring/guard.ts';
import { isTrusted, type State } from '../state.ts';
import { airKnown, missingDrivers } from './drive.ts';
import type { SectionState } from './section-state.ts';
import type { SectionReason, SectionStatus, ThroughStatus } from './section-status.ts';

export interface SectionStanding {
  readonly state: SectionStatus['state'];
  readonly reason?: SectionReason;
  readonly value?: number;
  readonly limit?: number;
  readonly missing: readonly string[];
}

export function settleThrough(state: State): void {
  const { through } = state;
  const standing = throughNow(state);
  if (standing.state === 'met' && (through.state === 'not begun' || through.state === 'voided'))
    beginHold(through, state.now);
  settleHold(state, through, holdAsked(state), standing);
}

export const throughDue = (state: State): Instant[] => holdDue(state.through, holdAsked(state));

export function throughStatus(state: State): ThroughStatus {
  const { through } = state;
  const standing = throughNow(state);
  const unknown = standing.state === 'not judged' && through.state !== 'paused';
  return {
    asked: state.limits.throughThicknessHold !== undefined,
    state: unknown ? 'not judged' : through.state,
    required: holdAsked(state),
    done: passedOf(through, state.now),
    ...(through.since === undefined ? {} : { since: through.since }),
    ...(through.doneAt === undefined ? {} : { doneAt: through.doneAt }),
    ...(through.firstDoneAt === undefined ? {} : { firstDoneAt: through.firstDoneAt }),
    ...(through.voidedBy === 'below minimum' || through.voidedBy === 'gap' || through.voidedBy === 'guard band'
      ? { voidedBy: through.voidedBy }
      : {}),
    ...(through.state === 'paused' && through.pausedNear === true ? { pausedNear: true } : {}),
    ...(standing.worst === undefined ? {} : { worst: standing.worst.place.part }),
  };
}

/** Asked for only where the procedure states it. */
export function throughCondition(state: State): Condition[] {
  if (state.limits.throughThicknessHold === undefined) return [];
  const id = 'through thickness';
  const { worst, standing } = throughNow(state);
  const status = throughStatus(state);
  const part = worst === undefined ? {} : { part: worst.place.part };
  const times = { value: status.done, limit: status.required };
  switch (status.state) {
    case 'done':
      return [{ id, state: 'met', reason: 'ok', ...part, ...times }];
    case 'running':
      return [
        {
          id,
          state: 'not met',
          reason: 'holding',
          ...part,
          ...times,
          timeToGo: (status.required - status.done) as Milliseconds,
        },
      ];
    case 'paused':
      return [{ id, ...stopped(state.through), ...part, ...times }];
    case 'not judged':
      if (standing?.reason === 'within guard band') {
        const value = worst!.coldest!.low;
        return [
          { id, state: 'not judged', reason: 'within guard band', ...part, value, limit: state.limits.preheatMinimum! },
        ];
      }
      return [
        {
          id,
          state: 'not judged',
          reason: standing?.reason ?? 'no minimum stated',
          ...part,
          ...(standing?.value === undefined ? {} : { value: standing.value as Milliseconds }),
          ...(standing?.limit === undefined ? {} : { limit: standing.limit as Milliseconds }),
          ...(standing === undefined || standing.missing.length === 0 ? {} : { missing: standing.missing }),
        },
      ];
    case 'not begun':
    case 'voided': {
      const coldest = worst?.coldest;
      return [
        {
          id,
          state: 'not met',
          reason: 'below minimum',
          ...part,
          ...(coldest === undefined ? {} : { value: coldest.low }),
          limit: state.limits.preheatMinimum!,
        },
      ];
    }
  }
}

/** How one section stands against the minimum. */
export function sectionStanding(state: State, each: SectionState): SectionStanding {
  const { lacks } = each.place;
  const notJudged = (reason: SectionReason, missing: readonly string[] = []): SectionStanding => ({
    state: 'not judged',
    reason,
    missing,
  });
  if (lacks !== undefined) return { state: 'not judged', missing: [], ...lacks };
  const missing = missingDrivers(state, each.place);
  if (missing.length > 0) return notJudged('no trusted fresh reading', missing);
  if (each.refused !== undefined) return notJudged(each.refused);
  // Which of the two probes is wrong is not known, so that neither stands for the part.
  if (each.doubtKey !== undefined) return notJudged('far face not as computed');
  if (each.coldest === undefined)
    return notJudged(airKnown(state) === undefined ? 'no air temperature' : 'no reading yet');
  const minimum = state.limits.preheatMinimum;
  if (minimum === undefined) return { state: 'not judged', missing: [] };
  switch (keepsMinimum(each.coldest.low, minimum, bandOfSection(state, each))) {
    case 'kept':
      return { state: 'met', missing: [] };
    case 'broken':
      return { state: 'not met', missing: [] };
    case 'within the band':
      return notJudged('within guard band');
  }
}

/** Of the least certain of the readings that drive it; none under simple acceptance. */
function bandOfSection(state: State, { place }: SectionState): Millikelvin {
  if (!isGuarded(state)) return 0 as Millikelvin;
  const drivers = new Set([...place.frontProbes, ...place.backProbes].map(({ id }) => id));
  const bands = state.probes
    .filter((each) => drivers.has(each.probe.id) && isTrusted(state, each))
    .map((each) => bandOf(state, each.good!));
  return Math.max(0, ...bands) as Millikelvin;
}

interface ThroughNow extends Standing {
  readonly worst?: SectionState;
  readonly standing?: SectionStanding;
}

function throughNow(state: State): ThroughNow {
  const all = state.sections.map((each) => ({ each, standing: sectionStanding(state, each) }));
  const below = all.some(({ standing }) => standing.state === 'not met');
  const coldest = all
    .filter(({ each }) => each.coldest !== undefined)
    .sort((a, b) => a.each.coldest!.low - b.each.coldest!.low)[0];
  const isNear = (each: (typeof all)[number]): boolean => each.standing.reason === 'within guard band';
  // What cannot be computed at all is told before what is only near.
  const unjudged = all.filter(({ standing }) => standing.state === 'not judged');
  const unknown = unjudged.find((each) => !isNear(each)) ?? unjudged[0];
  const worst = unknown ?? coldest;
  return {
    state: unknown !== undefined ? 'not judged' : below ? 'not met' : 'met',
    below,
    missing: all.flatMap(({ standing }) => standing.missing),
    near: unknown?.standing.reason === 'within guard band',
    ...(worst === undefined ? {} : { worst: worst.each, standing: worst.standing }),
  };
}

export const holdAsked = ({ limits }: State): Milliseconds => limits.throughThicknessHold ?? (0 as Milliseconds);
