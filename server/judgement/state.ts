/**
 * What the judge remembers between two inputs: plain data that can be cloned, kept and thrown away, since
 * it can always be folded again from the record.
 */
import type { Instant, MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { Acceptance, Requirement } from '../metallurgy/answer.ts';
import { requirement } from '../metallurgy/requirement.ts';
import { emptySuspicion, type Suspicion } from '../suspicion/suspicion.ts';
import type { Source, StationEvent } from '../weld/entry.ts';
import type { Bound } from '../weld/hand-reading.ts';
import type { Joint } from '../weld/joint.ts';
import type { PassCorrection, PassDetails } from '../weld/pass-acts.ts';
import type { Probe } from '../weld/probe.ts';
import type { Quality } from '../weld/scan.ts';
import { type AfterState, nothingAfter } from './after/after-state.ts';
import type { AmbientState } from './ambient/check.ts';
import type { ArcState } from './arc-watch.ts';
import type { Alarm, Finding, Limits, Shelving } from './assessment.ts';
import { type BreaksState, noBreaks } from './breaks/break-state.ts';
import { type ChecksState, noChecks } from './checks/checks-state.ts';
import type { ConditionId } from './condition.ts';
import type { FindingKind } from './finding-kind.ts';
import { type HoldState, notBegun } from './hold.ts';
import { type SectionState, sectionsOf } from './inside/section-state.ts';
import { limitsOf } from './limits-of.ts';
import type { HandReading } from './measuring/hand-reading.ts';
import { type InstrumentAct, type InstrumentState, registerOf } from './measuring/register.ts';
import type { InterpassRound, JudgedBefore, PassHeat, QualifiedPass, StruckPass } from './pass-status.ts';
import type { KeptDisposition } from './people/deviations.ts';
import type { Distrust } from './probe-status.ts';
import { rules } from './rules.ts';
import type { Takeover } from './spares.ts';
import type { Watch } from './watches.ts';

export type Mutable<T> = { -readonly [K in keyof T]: T[K] };

export interface GoodReading {
  readonly at: Instant;
  /** With the corrections of the instruments it came through. */
  readonly temperature: MilliCelsius;
  /** Absent where uncertainty is not kept. */
  readonly standardUncertainty?: Millikelvin;
  /** What the corrections added, where they added anything. */
  readonly correction?: Millikelvin;
  /** Nothing of its chain was taken at its worst. */
  readonly isChainKnown?: true;
}

export interface ProbeState {
  probe: Probe;
  lastQuality?: Quality;
  lastAt?: Instant;
  good?: GoodReading;
  /** First value that was not good since the last good one. */
  badSince?: Instant;
  /** Good readings, thinned, over the trend window: instant, temperature, instant, temperature. Each kept state has its own. */
  recent: number[];
  /** It clearly rises; kept from reading to reading. */
  warming?: boolean;
  /** First good value of the present unbroken run. */
  goodSince?: Instant;
  /** The present bad run began with readings that walked out of what a part can be. */
  wanderedOff?: boolean;
  /** The open trouble: its finding, its kind, and whether the whole board was silent. */
  troubleKey?: string;
  troubleKind?: FindingKind;
  troubleByLink?: boolean;
  /** Last end of a trouble that came through the wire and not from a lost link, and where that trouble began. */
  recoveredAt?: Instant;
  earlierTroubleFrom?: Instant;
  /** It left the judgement, and the finding that says so. */
  distrusted?: Distrust;
  distrustKey?: string;
}

export interface PassState {
  pass: string;
  passKind: string;
  welder: string;
  /** Replaced as a whole. */
  details: PassDetails;
  heat: PassHeat;
  corrections?: readonly PassCorrection[];
  rounds?: readonly InterpassRound[];
  nextReadingAt?: Instant;
  /** A reading by hand of the present interval. */
  handRound?: InterpassRound;
  startedAt: Instant;
  enteredAt: Instant;
  endedAt?: Instant;
  coldestAtStart?: Extreme;
  coldestDuring?: Extreme;
  hottestDuring?: Extreme;
  interpass?: Extreme & { by: 'probe' | 'contact' };
  minimum: 'met' | 'not met' | 'not judged';
  maximum: 'met' | 'not met' | 'not judged' | 'not needed';
  qualified?: QualifiedPass;
  outside: ConditionId[];
}

export interface Extreme {
  /** The probe, or the instrument of a reading by hand. */
  probe: string;
  temperature: MilliCelsius;
  /** Read with a crayon. */
  bound?: Bound;
}

export interface SoakState extends HoldState {
  /** The heat-off instant whose check for a still rising face is open, and the face's readings at half time. */
  risingCheckFrom?: Instant;
  atHalfTime?: { [probe: string]: MilliCelsius };
}

export interface AlarmTimer {
  readonly since: Instant;
  readonly due: Instant;
}

export interface State {
  now: Instant;
  openedAt: Instant;
  joint: Joint;
  source: Source;
  period: Milliseconds;
  boardPeriods: { [board: string]: Milliseconds };
  /** Announced, and in force from the board's next scan. */
  shorterPeriods: { [board: string]: Milliseconds };
  acceptances: Acceptance[];
  dispositions: KeptDisposition[];
  /** The joint as it was entered or revised; `joint` is this with the spares that took over in their places. */
  entered: Joint;
  takeovers: Takeover[];
  requirement: Requirement;
  limits: Limits;
  /** Instruments as they are after what was entered of them. */
  register: InstrumentState[];
  /** What was found of instruments that are not in it; it waits until they are. */
  notRegistered: InstrumentAct[];
  probes: ProbeState[];
  /** First scan of any probe of this joint: silence counts from here. */
  firstScanAt?: Instant;
  heat: 'on' | 'off' | 'not entered';
  heatSince?: Instant;
  soak: SoakState;
  /** Heat through each part, and the hold of its coldest point. */
  sections: SectionState[];
  through: HoldState;
  /** Readings by hand, oldest first. Replaced as wholes and never changed. */
  hand: HandReading[];
  /** The newest check at ambient. */
  ambient?: AmbientState;
  passes: PassState[];
  breaks: BreaksState;
  checks: ChecksState;
  arc: ArcState;
  struck: StruckPass[];
  /** How corrected passes were judged before each correction. */
  judgedBefore: { readonly at: Instant; readonly pass: string; readonly judged: JudgedBefore }[];
  after: AfterState;
  findings: Mutable<Finding>[];
  alarms: Mutable<Alarm>[];
  shelvings: Shelving[];
  /** Delays of alarms that run now, by "on" or "off" and the alarm's key. */
  readonly alarmTimers: Map<string, AlarmTimer>;
  /** Heat was entered, or seen in the readings: from here on probes are looked at. */
  underway: boolean;
  /** What holds now and counts, or will, once it has lasted (watches.ts). */
  readonly watches: Map<string, Watch>;
  minimumFirstReachedAt?: Instant;
  everReady: boolean;
  /** What is remembered of readings to tell faulty probes by. */
  suspicion: Suspicion;
  closedAt?: Instant;
}

/** The state after the first entry of a joint's chain. */
export function begin(at: Instant, event: StationEvent & { kind: 'opened' }): State {
  const answer = requirement(event.joint, []);
  return {
    now: at,
    openedAt: at,
    joint: event.joint,
    source: event.source,
    period: event.periodMilliseconds as Milliseconds,
    boardPeriods: {},
    shorterPeriods: {},
    acceptances: [],
    dispositions: [],
    entered: event.joint,
    takeovers: [],
    requirement: answer,
    limits: limitsOf(event.joint, answer),
    register: registerOf(event.joint),
    notRegistered: [],
    probes: event.joint.probes.map((probe) => ({ probe, recent: [] })),
    heat: 'not entered',
    soak: notBegun(),
    sections: sectionsOf(event.joint),
    through: notBegun(),
    hand: [],
    passes: [],
    breaks: noBreaks(),
    checks: noChecks(),
    arc: {},
    struck: [],
    judgedBefore: [],
    after: nothingAfter(),
    findings: [],
    alarms: [],
    shelvings: [],
    alarmTimers: new Map(),
    underway: false,
    watches: new Map(),
    everReady: false,
    suspicion: emptySuspicion(),
  };
}

export const freshFor = (state: State, probe: ProbeState): Milliseconds =>
  ((state.boardPeriods[probe.probe.board] ?? state.period) * rules.freshPeriods) as Milliseconds;

/** The newest good reading is younger than three periods. */
export const isFresh = (state: State, probe: ProbeState, at = state.now): boolean =>
  probe.good !== undefined && at - probe.good.at <= freshFor(state, probe);

/** Good, fresh, and without an open trouble, whether or not it is trusted. */
export const isRead = (state: State, probe: ProbeState): boolean =>
  probe.troubleKey === undefined && isFresh(state, probe);

/** Read, and not taken out of the judgement: the only readings that the judge goes by. */
export const isTrusted = (state: State, probe: ProbeState): boolean =>
  probe.distrusted === undefined && isRead(state, probe);

/** The same; of a closed joint as it was when it was closed, since nothing is taken in later. */
export const isTrustedUntilClosed = (state: State, probe: ProbeState): boolean =>
  probe.distrusted === undefined && probe.troubleKey === undefined && isFresh(state, probe, state.closedAt);

export const hasBegunWelding = (state: State): boolean => state.passes.length > 0;
export const isPassRunning = (state: State): boolean => state.passes.some((pass) => pass.endedAt === undefined);
