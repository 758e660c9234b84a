/**
 * What counts only once it has lasted: wrong for longer than a spike, or not known for longer than a short gap. It then
 * holds from when it began, with the worst that it came to since, and a finding that tells of it ends when it ends.
 */
import { after, type Instant, type Milliseconds } from '../measure/quantity.ts';
import type { FindingKind } from './finding-kind.ts';
import { close, type FindingDetail, open } from './findings.ts';
import type { Extreme, Mutable, State } from './state.ts';

export interface Watch {
  readonly since: Instant;
  /** How long it has to last; the shortest that was said of it. */
  delay: Milliseconds;
  worst?: Mutable<Extreme>;
  /** Key of the finding that tells of it. */
  told?: string;
}

/** What tells of it, where what governs now stands beside the worst since it began. */
export interface Telling {
  readonly kind: FindingKind;
  readonly detail: FindingDetail;
  readonly now?: Extreme | undefined;
  /** Which of two is the worse; the lower against a minimum. */
  readonly worse?: 'lower' | 'higher';
}

/** True once it has held for the delay. */
export function hasLasted(state: State, key: string, holds: boolean, delay: number): boolean {
  if (!holds) {
    endWatch(state, key);
    return false;
  }
  const watch = state.watches.get(key) ?? { since: state.now, delay: delay as Milliseconds };
  state.watches.set(key, watch);
  watch.delay = Math.min(watch.delay, delay) as Milliseconds;
  return state.now >= dueOf(watch);
}

/** The same, and tells of it. */
export function tellLasting(state: State, key: string, holds: boolean, delay: number, telling: Telling): boolean {
  const lasts = hasLasted(state, key, holds, delay);
  if (!holds) return false;
  const watch = state.watches.get(key)!;
  const isWorse = keepWorst(watch, telling);
  if (!lasts) return false;
  if (watch.told === undefined) tell(state, watch, telling);
  else if (isWorse) tellWorst(state, watch);
  return true;
}

/** It is over, or no longer asked for: what was told of it ends now. */
export function endWatch(state: State, key: string): void {
  // Asked for everything that is right, with every reading, while nearly always nothing is watched at all.
  if (state.watches.size === 0) return;
  const told = state.watches.get(key)?.told;
  if (told !== undefined) close(state, told, state.now);
  state.watches.delete(key);
}

/** Since when it holds, lasting or not yet. */
export const watchedSince = (state: State, key: string): Instant | undefined => state.watches.get(key)?.since;

export const watchesDue = (state: State): Instant[] => Array.from(state.watches.values(), dueOf);

const dueOf = ({ since, delay }: Watch): Instant => after(since, delay);

function keepWorst(watch: Watch, { now, worse = 'lower' }: Telling): boolean {
  if (now === undefined) return false;
  const sign = worse === 'lower' ? -1 : 1;
  if (watch.worst !== undefined && sign * (now.temperature - watch.worst.temperature) <= 0) return false;
  watch.worst = now;
  return true;
}

/** What was told of its first instant alone, as at the start of a pass, goes on. */
function tell(state: State, watch: Watch, { kind, detail }: Telling): void {
  watch.told = open(state, kind, watch.since, { ...detail, ...told(watch.worst) });
  const finding = state.findings.find(({ key }) => key === watch.told);
  if (finding !== undefined) delete finding.to;
}

const told = (worst: Extreme | undefined): Pick<FindingDetail, 'probe' | 'value' | 'bound'> =>
  worst === undefined
    ? {}
    : {
        probe: worst.probe,
        value: worst.temperature,
        ...(worst.bound === undefined ? {} : { bound: worst.bound }),
      };

/** The key goes on naming the place where it began; place and number are those of the worst. */
function tellWorst(state: State, watch: Watch): void {
  const finding = state.findings.find((each) => each.key === watch.told);
  if (finding === undefined) return;
  delete finding.bound;
  Object.assign(finding, told(watch.worst));
}
