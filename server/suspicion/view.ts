/** What a detector looks at when a block of readings has ended: every probe with its history, and what goes on at the joint. */
import type { ThermocoupleType } from '../measure/thermocouple.ts';
import type { Place, ProbeUse } from '../weld/probe.ts';
import type { RawPattern } from './detectors/bus.ts';
import { block, type History, minute, minutesOf } from './history.ts';
import type { Sighting } from './sign.ts';

/** What the joint says of a probe. */
export interface About {
  readonly probe: string;
  readonly board: string;
  readonly channel: number;
  readonly use: ProbeUse;
  readonly thermocouple: ThermocoupleType;
  readonly place?: Place;
  /** Sits on the part, and its face is heated. */
  readonly onPart: boolean;
  readonly heated: boolean;
  /** A flame passes over its face. */
  readonly flame: boolean;
  /** How long heat takes to be felt there at the latest, milliseconds. */
  readonly lag: number;
  /** Read, fresh and not distrusted: others may be compared with it. */
  readonly trusted: boolean;
}

export interface Circumstances {
  readonly at: number;
  readonly heat: 'on' | 'off' | 'not entered';
  readonly heatSince?: number;
  /** A pass has begun, ever. */
  readonly welding: boolean;
}

/** What happens in single readings and is counted. */
export interface Events {
  jumps: number;
  firstJumpAt: number;
  lastJumpAt: number;
  biggestJump: number;
  /** Single readings lost with the flag of an open wire, counted as jumps are. */
  lost: number;
  firstLostAt: number;
  lastLostAt: number;
  /** The pattern of the newest raw number, how often in a row, and since when. */
  pattern: RawPattern | undefined;
  patterns: number;
  patternSince: number;
}

export interface Watched extends About {
  readonly history: History;
  readonly events: Events;
}

export interface View extends Circumstances {
  readonly watched: readonly Watched[];
  /** Probes of which a sign stands: nobody is compared with them. */
  readonly suspects: ReadonlySet<string>;
}

export type Detector = (view: View) => readonly Sighting[];

/** Mean of the newest block, thousandths of a degree; NaN where nothing good came. */
export const reading = ({ history }: Watched): number => block(history, 0, 'mean');

/** The others on the part that can be believed. */
export const companyOf = (view: View, watched: Watched): Watched[] =>
  view.watched.filter((each) => each !== watched && each.onPart && each.trusted && !view.suspects.has(each.probe));

/** How much the probe changed since the minute at or before an instant, thousandths of a kelvin; NaN where that is not remembered. */
export function changeSince(watched: Watched, since: number): number {
  const from = at(watched.history, since);
  return from === undefined ? Number.NaN : reading(watched) - from;
}

/** The minute's mean nearest after an instant. */
function at(history: History, since: number): number | undefined {
  const count = minutesOf(history);
  // Minutes lie a minute apart or more, so the search begins where it would be if none were missing.
  for (let back = count - 1; back >= 0; back -= 1) {
    const kept = minute(history, back);
    if (kept !== undefined && kept.at >= since) return kept.mean;
  }
  return undefined;
}

/** The middle one; NaN of none. */
export function middle(values: readonly number[]): number {
  const sorted = values.filter((each) => !Number.isNaN(each)).sort((a, b) => a - b);
  return sorted.length === 0 ? Number.NaN : sorted[sorted.length >> 1]!;
}

/** How long since this probe should have followed: the others have been so much warmer than at their start for longer than heat takes to come here. */
export function othersRose(view: View, watched: Watched, rose: number): number {
  const company = companyOf(view, watched);
  return middle(company.map((each) => riseBefore(each, view.at - watched.lag, rose)));
}

/** The rise of a probe from its first minute to now, if it had half of it already so long ago; else 0. */
function riseBefore(watched: Watched, long: number, rose: number): number {
  const first = minute(watched.history, minutesOf(watched.history) - 1);
  if (first === undefined) return 0;
  const then = at(watched.history, long);
  const now = reading(watched);
  return first.at <= long && then !== undefined && then - first.mean >= rose / 2 ? now - first.mean : 0;
}
