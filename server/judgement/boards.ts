/** Which boards of the joint are heard. A board is silent when none of its lines came for three periods: then no probe of it can be told. */
import { after, type Instant, type Milliseconds } from '../measure/quantity.ts';
import { rules } from './rules.ts';
import type { State } from './state.ts';

export interface BoardNow {
  readonly board: string;
  readonly silent: boolean;
  /** Of this joint, spares left out. */
  readonly probes: readonly string[];
  /** When it turns silent if nothing comes in. */
  readonly silentFrom: Instant;
}

/** None before the first line of any board: what nobody has connected yet is not lost. */
export function boardsNow(state: State): BoardNow[] {
  const { firstScanAt } = state;
  if (firstScanAt === undefined) return [];
  const newest = new Map<string, Instant>();
  const places = new Map<string, string[]>();
  for (const { probe, lastAt } of state.probes) {
    const at = Math.max(newest.get(probe.board) ?? firstScanAt, lastAt ?? firstScanAt) as Instant;
    newest.set(probe.board, at);
    if (probe.use === 'spare') continue;
    const known = places.get(probe.board);
    if (known === undefined) places.set(probe.board, [probe.id]);
    else known.push(probe.id);
  }
  return [...places].map(([board, probes]) => {
    const fresh = ((state.boardPeriods[board] ?? state.period) * rules.freshPeriods) as Milliseconds;
    const silentFrom = after(newest.get(board)!, fresh + 1);
    return { board, probes, silentFrom, silent: state.now >= silentFrom };
  });
}

export const boardsDue = (state: State): Instant[] => boardsNow(state).map(({ silentFrom }) => silentFrom);
