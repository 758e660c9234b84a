/**
 * Watches the readings of one joint for signs of faulty probes. Every reading is taken into its probe's history; the
 * detectors look once for each block of some seconds. Memory is bounded, and the same readings give the same signs.
 */
import type { Instant } from '../measure/quantity.ts';
import type { Scan, ScanValue } from '../weld/scan.ts';
import { busPattern, type RawPattern } from './detectors/bus.ts';
import { addReading, closeBlock, copyHistory, emptyHistory, type History, newest } from './history.ts';
import { detectors } from './list.ts';
import { numbers } from './numbers.ts';
import { type Sighting, type Sign, type SignChange, type SignKind, signKinds } from './sign.ts';
import type { About, Circumstances, Events, View, Watched } from './view.ts';

export interface Suspicion {
  readonly probes: Map<string, ProbeMemory>;
  /** Signs that stand, by kind, probe or board. */
  readonly standing: Map<string, Standing>;
  blockEnds: number;
  arc: boolean;
  arcChangedAt: number;
}

interface ProbeMemory {
  /** Board and channel that it came in on. */
  wire?: string;
  readonly history: History;
  readonly events: Events;
}

interface Standing {
  readonly sign: Sign;
  seenAt: Instant;
}

export const emptySuspicion = (): Suspicion => ({
  probes: new Map(),
  standing: new Map(),
  blockEnds: 0,
  arc: false,
  arcChangedAt: Number.NEGATIVE_INFINITY,
});

export const copySuspicion = ({ probes, standing, ...rest }: Suspicion): Suspicion => ({
  ...rest,
  probes: new Map(
    [...probes].map(([id, each]) => [id, { ...each, history: copyHistory(each.history), events: { ...each.events } }]),
  ),
  standing: new Map([...standing].map(([key, each]) => [key, { ...each }])),
});

/** What the caller knows of the joint; asked for only when a block ends. */
export interface Surroundings {
  readonly period: number;
  readonly arc: boolean;
  about(): readonly About[];
  circumstances(): Omit<Circumstances, 'at'>;
}

/** Takes a scan in. The changes of signs come out when a block ends, which is seldom. */
export function watchScan(suspicion: Suspicion, scan: Scan, surroundings: Surroundings): readonly SignChange[] {
  const at = scan.measuredAt;
  let changes: readonly SignChange[] = none;
  if (at >= suspicion.blockEnds) {
    if (suspicion.blockEnds > 0) changes = look(suspicion, at, surroundings);
    suspicion.blockEnds = at + Math.max(numbers.blockAtLeast, numbers.blockPeriods * surroundings.period);
  }
  const gap = 2.5 * surroundings.period;
  const arc = surroundings.arc || (scan.inputs & 1) === 1;
  const arcChanged = arc !== suspicion.arc;
  if (arcChanged) suspicion.arcChangedAt = at;
  suspicion.arc = arc;
  // What comes with the arc, or with its end, is not the wire's.
  const calm = !arc && at - suspicion.arcChangedAt > numbers.calmAfterArc;
  for (const value of scan.values) takeValue(suspicion, value, { at, gap, arc, arcChanged, calm });
  return changes;
}

function memoryOf({ probes }: Suspicion, probe: string): ProbeMemory {
  const known = probes.get(probe);
  if (known !== undefined) return known;
  const memory = { history: emptyHistory(), events: noEvents() };
  probes.set(probe, memory);
  return memory;
}

/** What was remembered of a probe says nothing of the one that comes in on another wire by the same name. */
function onItsWire({ probes }: Suspicion, { probe, board, channel }: About): ProbeMemory | undefined {
  const memory = probes.get(probe);
  if (memory === undefined) return undefined;
  const wire = `${board}/${channel}`;
  if (memory.wire !== undefined && memory.wire !== wire) {
    probes.delete(probe);
    return undefined;
  }
  memory.wire = wire;
  return memory;
}

const noEvents = (): Events => ({
  jumps: 0,
  firstJumpAt: Number.NaN,
  lastJumpAt: Number.NaN,
  biggestJump: 0,
  lastJump: 0,
  lost: 0,
  firstLostAt: Number.NaN,
  lastLostAt: Number.NaN,
  arcOn: Number.NaN,
  arcOff: Number.NaN,
  arcOnAt: Number.NaN,
  arcOffAt: Number.NaN,
  patterns: 0,
  pattern: undefined,
  patternSince: Number.NaN,
});

interface Moment {
  readonly at: Instant;
  readonly gap: number;
  readonly arc: boolean;
  readonly arcChanged: boolean;
  readonly calm: boolean;
}

function takeValue(
  suspicion: Suspicion,
  { probe, quality, temperature, raw }: ScanValue,
  { at, gap, arc, arcChanged, calm }: Moment,
): void {
  const { history, events } = memoryOf(suspicion, probe);
  if (at <= history.newest[newest.at]!) return;
  const good = quality === 'good' && temperature !== undefined ? temperature : Number.NaN;
  const isVoltage = raw.form === 'voltage';
  const volts = isVoltage ? raw.deciMicrovolts : Number.NaN;
  const bend = addReading(history, {
    at,
    temperature: good,
    code: isVoltage ? volts : good,
    terminals: isVoltage ? raw.coldJunction : Number.NaN,
    volts,
    arc,
    gap,
  });
  if (Math.abs(bend) > numbers.jump && calm) noteJump(events, at, bend, gap);
  if (arcChanged) noteArc(events, at, bend, arc);
  // A reading lost after a good one; a wire that stays open is a trouble that the judge tells by itself.
  if (quality === 'open' && !Number.isNaN(history.newest[newest.before]!)) noteLost(events, at);
  notePattern(events, at, busPattern(raw));
}

function noteLost(events: Events, at: number): void {
  if (at - events.lastLostAt > numbers.looseWithin) events.lost = 0;
  if (events.lost === 0) events.firstLostAt = at;
  events.lost += 1;
  events.lastLostAt = at;
}

/** One jump shows in up to three readings: a spike is off the line on its way out, at its top and on its way back. */
function noteJump(events: Events, at: number, bend: number, gap: number): void {
  if (at - events.lastJumpAt <= gap) return;
  if (at - events.lastJumpAt > numbers.looseWithin) events.jumps = 0;
  if (events.jumps === 0) events.firstJumpAt = at;
  events.jumps += 1;
  events.lastJumpAt = at;
  events.lastJump = bend;
  events.biggestJump = Math.max(Math.abs(bend), events.jumps === 1 ? 0 : events.biggestJump);
}

function noteArc(events: Events, at: number, bend: number, on: boolean): void {
  if (on) {
    events.arcOn = bend;
    events.arcOnAt = at;
  } else {
    events.arcOff = bend;
    events.arcOffAt = at;
  }
}

function notePattern(events: Events, at: number, pattern: RawPattern | undefined): void {
  if (pattern !== events.pattern) {
    events.pattern = pattern;
    events.patterns = 0;
    events.patternSince = at;
  }
  if (pattern !== undefined) events.patterns += 1;
}

function look(suspicion: Suspicion, at: Instant, { about, circumstances }: Surroundings): SignChange[] {
  for (const { history } of suspicion.probes.values()) closeBlock(history, at);
  const there = about();
  const watched = there.flatMap((each): Watched[] => {
    const memory = onItsWire(suspicion, each);
    return memory === undefined ? [] : [{ history: memory.history, events: memory.events, ...each }];
  });
  const suspects = suspectsOf(suspicion);
  const believed = watched.filter(({ probe, onPart, trusted }) => onPart && trusted && !suspects.has(probe));
  const view: View = { at, watched, suspects, believed, ...circumstances() };
  const sightings = detectors.flatMap((detector) => detector(view));
  return [...opened(suspicion, at, sightings), ...closed(suspicion, at, there)];
}

function suspectsOf({ standing }: Suspicion): ReadonlyMap<string, SignKind> {
  const suspects = new Map<string, SignKind>();
  for (const { sign } of standing.values()) {
    if (sign.probe === undefined) continue;
    const known = suspects.get(sign.probe);
    if (known === undefined || signKinds.indexOf(sign.kind) < signKinds.indexOf(known))
      suspects.set(sign.probe, sign.kind);
  }
  return suspects;
}

function opened({ standing }: Suspicion, at: Instant, sightings: readonly Sighting[]): SignChange[] {
  const changes: SignChange[] = [];
  for (const { disproves, ...sighting } of sightings) {
    if (disproves !== undefined) changes.push(...takenBack(standing, nameOf({ ...sighting, kind: disproves })));
    if (isExplained(sighting, sightings, standing)) continue;
    const name = nameOf(sighting);
    const known = standing.get(name);
    if (known !== undefined) {
      known.seenAt = at;
      continue;
    }
    const sign = { ...sighting, since: sighting.since ?? at };
    standing.set(name, { sign, seenAt: at });
    changes.push({ change: 'opened', sign, to: at });
  }
  return changes;
}

function takenBack(standing: Map<string, Standing>, name: string): SignChange[] {
  const known = standing.get(name);
  if (known === undefined) return [];
  standing.delete(name);
  return [{ change: 'closed', sign: known.sign, to: known.seenAt }];
}

/** One cause is told of a probe: the one that stands first in the list of kinds. What it explains besides is not told. */
function isExplained(
  { kind, probe }: Sighting,
  sightings: readonly Sighting[],
  standing: ReadonlyMap<string, Standing>,
): boolean {
  if (probe === undefined) return false;
  const before = signKinds.slice(0, signKinds.indexOf(kind));
  return (
    sightings.some((each) => each.probe === probe && before.includes(each.kind)) ||
    before.some((each) => standing.has(nameOf({ kind: each, probe })))
  );
}

function closed({ standing }: Suspicion, at: Instant, there: readonly About[]): SignChange[] {
  const changes: SignChange[] = [];
  for (const [name, { sign, seenAt }] of standing) {
    const gone = sign.probe !== undefined && there.every(({ probe }) => probe !== sign.probe);
    const after = rare.has(sign.kind) ? numbers.rareOverAfter : numbers.overAfter;
    if (!gone && at - seenAt <= after) continue;
    standing.delete(name);
    changes.push({ change: 'closed', sign, to: seenAt });
  }
  return changes;
}

const rare: ReadonlySet<SignKind> = new Set<SignKind>([
  'open',
  'arc-noise',
  'ground-loop',
  'cold-junction-jump',
  'detached',
]);

const nameOf = ({ kind, probe, board }: Pick<Sighting, 'kind' | 'probe' | 'board'>): string =>
  `${kind}/${probe ?? board ?? ''}`;

const none: readonly SignChange[] = [];
