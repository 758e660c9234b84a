/** What a detector looks at when a block of readings has ended: every probe with its history, and what goes on at the joint. */
import type { ThermocoupleType } from '../measure/thermocouple.ts';
import type { Place, ProbeUse } from '../weld/probe.ts';
import type { RawPattern } from './detectors/bus.ts';
import { block, type History, type inBlock, minute, minutesOf } from './history.ts';
import { numbers } from './numbers.ts';
import type { Sighting, SignKind } from './sign.ts';

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
  /** Of the newest jump. */
  lastJump: number;
  /** Single readings lost with the flag of an open wire, counted as jumps are. */
  lost: number;
  firstLostAt: number;
  lastLostAt: number;
  /** How far the first reading after the arc began, and after it ended, lies off the line before; and when that was. */
  arcOn: number;
  arcOff: number;
  arcOnAt: number;
  arcOffAt: number;
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
  /** Probes of which a sign stands, with the gravest: nobody is compared with them. */
  readonly suspects: ReadonlyMap<string, SignKind>;
  /** Those on the part that others may be compared with. */
  readonly believed: readonly Watched[];
}

export type Detector = (view: View) => readonly Sighting[];

/** Mean of the newest block, thousandths of a degree; NaN where nothing good came. */
export const reading = ({ history }: Watched): number => block(history, 0, 'mean');

/** The others on the part that can be believed. */
export const companyOf = (view: View, watched: Watched): Watched[] => view.believed.filter((each) => each !== watched);

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

/** The middle one, or the mean of the middle two; NaN of none. */
export function middle(values: readonly number[]): number {
  // By insertion: there are a handful, and this is asked for every block of every probe.
  const sorted: number[] = [];
  for (const each of values) {
    if (Number.isNaN(each)) continue;
    let place = sorted.length;
    for (; place > 0 && sorted[place - 1]! > each; place -= 1) sorted[place] = sorted[place - 1]!;
    sorted[place] = each;
  }
  const [below, above] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  return below === undefined || above === undefined ? Number.NaN : (below + above) / 2;
}

/** Middle of a number of the blocks from so far back on. */
export function overBlocks({ history }: Watched, what: keyof typeof inBlock, from: number, count: number): number {
  const values: number[] = [];
  for (let index = 0; index < count; index += 1) values.push(block(history, from + index, what));
  return middle(values);
}

/** No arc burnt in the newest blocks. */
export function isQuiet({ history }: Watched, blocks: number): boolean {
  for (let back = 0; back < blocks; back += 1) if (block(history, back, 'arc') > 0) return false;
  return true;
}

/** So near to the groove that a passing arc warms it within seconds, in a joint whose welding has begun. */
export const isNearArc = (view: View, { place }: Watched): boolean =>
  view.welding && (place?.distanceMillimetres ?? 0) < numbers.nearArcMillimetres;

/**
 * The spare beside a probe, or the probe that it is the spare of: what the two differ by is theirs and not the steel's. Two
 * probes that are not spares may lie far apart along the joint, which their place does not tell.
 */
export function twinOf(view: View, watched: Watched): Watched | undefined {
  const beside = view.watched.filter(
    ({ onPart, place }) =>
      onPart && place?.part === watched.place?.part && isBeside(watched, place, numbers.twinMillimetres),
  );
  const [one, other, ...more] = beside;
  if (one === undefined || other === undefined || more.length > 0) return undefined;
  const twin = one === watched ? other : one;
  const isPair = (one.use === 'spare') !== (other.use === 'spare');
  return isPair && twin.trusted && !view.suspects.has(twin.probe) ? twin : undefined;
}

/** Others on the same kind of face at much the same distance, on any part. */
export const peersOf = (view: View, watched: Watched): Watched[] =>
  companyOf(view, watched).filter(({ place }) => isBeside(watched, place, numbers.peerMillimetres));

function isBeside({ place }: Watched, other: Place | undefined, millimetres: number): boolean {
  if (place === undefined || other === undefined || place.face !== other.face) return false;
  const clocks = (place.clock ?? 0) - (other.clock ?? 0);
  return Math.abs(place.distanceMillimetres - other.distanceMillimetres) <= millimetres && Math.abs(clocks) <= 1;
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
