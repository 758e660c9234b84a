/**
 * The arc signal of a board beside the passes that were entered. It proposes and a person confirms: nothing is judged as
 * a pass that nobody entered. An arc that burnt for long with no pass entered is a finding all the same, since what was
 * measured before it was judged by nobody. Only an input that is on says something: one that is off may not be wired.
 */
import { after, elapsed, type Instant } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import { close, open } from './findings.ts';
import { rules } from './rules.ts';
import { isPassRunning, type State } from './state.ts';

/** Arc seen, short pauses in it passed over. */
export interface ArcStretch {
  readonly from: Instant;
  lastOnAt: Instant;
  /** How long it burnt, pauses left out. */
  burnt: number;
}

export interface ArcState {
  /** While no pass ran. */
  alone?: ArcStretch;
  aloneKey?: string;
  /** In the running pass. */
  inPass?: ArcStretch;
}

export type ArcProposal =
  | { readonly kind: 'pass start'; readonly at: Instant; readonly isBurning: boolean }
  | { readonly kind: 'pass end'; readonly pass: string; readonly at: Instant };

export interface ArcStatus {
  readonly isBurning: boolean;
  readonly proposal?: ArcProposal;
}

export function takeArc(state: State, scan: Scan): void {
  const { arcSignal } = state.joint;
  if (arcSignal === undefined || scan.board !== arcSignal.board) return;
  if (((scan.inputs >> (arcSignal.input - 1)) & 1) === 0) return;
  if (isPassRunning(state)) state.arc.inPass = longer(state, state.arc.inPass);
  else state.arc.alone = longer(state, state.arc.alone);
}

/** A pass begins: what burnt before it without one is over. */
export function arcInPass(state: State): void {
  endAlone(state, state.now);
  delete state.arc.inPass;
}

export function settleArc(state: State): void {
  const { alone } = state.arc;
  if (alone === undefined) return;
  if (elapsed(alone.lastOnAt, state.now) > rules.arcPause) {
    endAlone(state, alone.lastOnAt);
    return;
  }
  if (alone.burnt < rules.arcWithoutPass || state.arc.aloneKey !== undefined) return;
  state.arc.aloneKey = open(state, 'arc without pass', alone.from, { board: state.joint.arcSignal!.board });
}

export const arcDue = ({ arc }: State): Instant[] =>
  arc.alone === undefined ? [] : [after(arc.alone.lastOnAt, rules.arcPause + 1)];

export function arcStatus(state: State): ArcStatus | undefined {
  if (state.joint.arcSignal === undefined) return undefined;
  const proposal = proposalOf(state);
  const lastOnAt = Math.max(state.arc.alone?.lastOnAt ?? 0, state.arc.inPass?.lastOnAt ?? 0);
  return {
    isBurning: state.now - lastOnAt <= stale(state),
    ...(proposal === undefined ? {} : { proposal }),
  };
}

/** Nothing further back than an entry can reach is proposed. */
function proposalOf({ arc, passes, now, ...state }: State): ArcProposal | undefined {
  const running = passes.find(({ endedAt }) => endedAt === undefined);
  if (running === undefined) {
    const { alone } = arc;
    if (alone === undefined || alone.burnt < rules.arcConfirmed || now - alone.from > rules.lookBack) return undefined;
    return { kind: 'pass start', at: alone.from, isBurning: now - alone.lastOnAt <= stale(state) };
  }
  const seen = arc.inPass;
  const isOut = seen !== undefined && elapsed(seen.lastOnAt, now) >= rules.arcOut;
  if (!isOut || now - seen.lastOnAt > rules.lookBack) return undefined;
  return { kind: 'pass end', pass: running.pass, at: seen.lastOnAt };
}

function longer(state: State, stretch: ArcStretch | undefined): ArcStretch {
  const { now } = state;
  if (stretch === undefined) return { from: now, lastOnAt: now, burnt: 0 };
  const gap = elapsed(stretch.lastOnAt, now);
  return { from: stretch.from, lastOnAt: now, burnt: stretch.burnt + (gap <= stale(state) ? gap : 0) };
}

/** So long after a scan that saw it an arc counts as burning. */
const stale = ({ joint, boardPeriods, period }: Pick<State, 'joint' | 'boardPeriods' | 'period'>): number =>
  (boardPeriods[joint.arcSignal!.board] ?? period) * rules.freshPeriods;

function endAlone(state: State, at: Instant): void {
  if (state.arc.aloneKey !== undefined) close(state, state.arc.aloneKey, at);
  delete state.arc.alone;
  delete state.arc.aloneKey;
}
