/**
 * What the judge says at one instant: plain data without words for people. Screen, report and command
 * line make their words from it (server/wording), so that all of them say the same.
 */
import type { Instant, JoulesPerMetre, MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { Requirement } from '../metallurgy/answer.ts';
import type { Seen, SignKind, Sureness } from '../suspicion/sign.ts';
import type { Source } from '../weld/entry.ts';
import type { Bound } from '../weld/hand-reading.ts';
import type { AfterStatus } from './after/after-status.ts';
import type { AmbientStatus } from './ambient/status.ts';
import type { AmbientOutcome } from './ambient/touch.ts';
import type { ArcStatus } from './arc-watch.ts';
import type { BreakStatus } from './breaks/break-status.ts';
import type { CheckStatus, PointStatus } from './checks/check-status.ts';
import type { Condition } from './condition.ts';
import type { FindingKind } from './finding-kind.ts';
import type { SectionStatus, ThroughStatus } from './inside/section-status.ts';
import type { InstrumentStatus } from './measuring/instrument-status.ts';
import type { TwinRead } from './measuring/twin-reading.ts';
import type { PassStatus, StruckPass } from './pass-status.ts';
import type { Disposition } from './people/deviations.ts';
import type { Ahead } from './phases/ahead-status.ts';
import type { ProbeStatus } from './probe-status.ts';
import type { SoakStatus } from './soak-status.ts';

export type Phase =
  | 'planned'
  | 'checking'
  | 'heating'
  | 'equalising'
  | 'ready'
  | 'pass running'
  | 'between passes'
  | 'interrupted'
  | 'before post-heating'
  | 'post-heating'
  | 'cooling'
  | 'waiting'
  | 'complete'
  | 'closed';

export type Verdict = 'complies' | 'does-not-comply' | 'cannot-be-judged';

/** nonconformity: does not comply. not judged: cannot be judged. remark: told, and changes no verdict. */
export type Severity = 'nonconformity' | 'not judged' | 'remark';

export interface Finding {
  /** Stable within the record: kind, place or probe, and from. */
  readonly key: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly probe?: string;
  readonly pass?: string;
  readonly part?: string;
  readonly instrument?: string;
  /** Of an entry: whose it is, and which act. */
  readonly who?: string;
  readonly act?: string;
  /** Of a check or a point: its words. */
  readonly item?: string;
  /** Held from / to; no `to` while it lasts. */
  readonly from: Instant;
  readonly to?: Instant;
  /** When the judge could first say so. */
  readonly knownAt: Instant;
  /** What a named person decided on it, where it needs an answer. */
  readonly disposition?: Disposition;
  readonly value?: MilliCelsius | Millikelvin | Milliseconds | JoulesPerMetre;
  readonly limit?: MilliCelsius | Millikelvin | Milliseconds | JoulesPerMetre;
  /** Of a value read with a crayon. */
  readonly bound?: Bound;
  /** Of a suspect probe or board: what its readings show. */
  readonly sign?: SignKind;
  readonly sure?: Sureness;
  readonly seen?: Seen;
  readonly board?: string;
  readonly against?: string;
  /** Of a check at ambient that failed; which other probe has to do with it stands in `against`. */
  readonly outcome?: AmbientOutcome;
}

export type AlarmKind =
  | 'below minimum'
  | 'through thickness lost'
  | 'above highest temperature'
  | 'break near its end'
  | 'maintenance temperature lost'
  | 'board silent'
  | 'probe fault'
  | 'probe silent'
  | 'far face not as computed'
  | 'not recording';

/** The rule by which an alarm that stands is not announced: a phase in which it says nothing, or the alarm that caused it. */
export type Suppression =
  | 'before heating'
  | 'first heating'
  | 'break kept warm'
  | 'after welding'
  | 'board silent'
  | 'below minimum';

/**
 * State words follow IEC 62682: an alarm leaves the list only when it is normal again and acknowledged. Suppressed
 * and shelved lie across them: such an alarm is watched and recorded like the others, and not announced.
 */
export interface Alarm {
  readonly key: string;
  readonly kind: AlarmKind;
  readonly probe?: string;
  readonly board?: string;
  readonly part?: string;
  /** The places under it, where it stands for several. */
  readonly probes?: readonly string[];
  readonly state: 'active' | 'active acknowledged' | 'returned unacknowledged';
  readonly since: Instant;
  /** When it was last announced to people. Absent: not in this life of it; always absent in records of before. */
  readonly announcedAt?: Instant;
  readonly returnedAt?: Instant;
  readonly acknowledgedBy?: string;
  readonly acknowledgedAt?: Instant;
  readonly suppressed?: Suppression;
  readonly shelved?: Shelving;
  readonly value?: MilliCelsius;
  readonly limit?: MilliCelsius;
}

/** Put aside by a named person, for a reason and up to an instant. */
export interface Shelving {
  readonly key: string;
  readonly kind: AlarmKind;
  readonly by: string;
  readonly reason: string;
  readonly at: Instant;
  readonly until: Instant;
}

export interface Limits {
  readonly preheatMinimum?: MilliCelsius;
  readonly interpassMaximum?: MilliCelsius;
  readonly maintenanceMinimum?: MilliCelsius;
  readonly highest?: MilliCelsius;
  readonly evennessMaximum?: Millikelvin;
  /** Absent: the procedure does not ask for the minimum through the thickness. */
  readonly throughThicknessHold?: Milliseconds;
}

export interface Interpass {
  /** window: may start. too hot: wait. not judged: no interpass place or no fresh reading. */
  readonly state: 'window' | 'too hot' | 'not judged';
  readonly probe?: string;
  readonly temperature?: MilliCelsius;
  /** Read with a crayon: at least, or below. */
  readonly bound?: Bound;
  readonly trendPerMinute?: Millikelvin;
  /** Time until the maximum is reached by the present trend. */
  readonly timeToWindow?: Milliseconds;
}

export interface Assessment {
  readonly at: Instant;
  /** Nothing is judged from before; absent in what an older program kept. */
  readonly openedAt?: Instant;
  readonly phase: Phase;
  readonly ahead: Ahead;
  readonly source: Source;
  readonly heat: 'on' | 'off' | 'not entered';
  readonly heatSince?: Instant;
  readonly limits: Limits;
  readonly requirement: Requirement;
  readonly probes: readonly ProbeStatus[];
  /** The register, where the joint has one. */
  readonly instruments?: readonly InstrumentStatus[];
  /** The probe that a reading by hand is asked for beside, now. */
  readonly twinAsked?: { readonly probe: string };
  /** The newest reading by hand beside each probe that has one. */
  readonly twins?: readonly TwinRead[];
  /** How many readings by hand it holds; absent where none. */
  readonly handReadings?: number;
  readonly coldest?: { readonly probe: string; readonly temperature: MilliCelsius; readonly bound?: Bound };
  /** Absent where it is not asked and was not made. */
  readonly ambientCheck?: AmbientStatus;
  readonly hottest?: { readonly probe: string; readonly temperature: MilliCelsius };
  readonly spread: readonly { readonly face: 'front' | 'back'; readonly spread: Millikelvin }[];
  readonly conditions: readonly Condition[];
  /** All conditions met. */
  readonly ready: boolean;
  readonly soak: SoakStatus;
  /** One section through each part. */
  readonly sections: readonly SectionStatus[];
  readonly throughThickness: ThroughStatus;
  readonly interpass: Interpass;
  readonly passes: readonly PassStatus[];
  /** Oldest first; absent where none. */
  readonly breaks?: readonly BreakStatus[];
  /** Absent where the joint has no arc signal. */
  readonly arc?: ArcStatus;
  /** Absent where none was. */
  readonly struckPasses?: readonly StruckPass[];
  /** What the procedure asks to be checked and released; absent where nothing. */
  readonly checks?: readonly CheckStatus[];
  readonly points?: readonly PointStatus[];
  /** Once welding is said to be complete. */
  readonly after?: AfterStatus;
  readonly findings: readonly Finding[];
  readonly alarms: readonly Alarm[];
  /** What is put aside now, whether its alarm stands or not. */
  readonly shelvings: readonly Shelving[];
  readonly verdict: Verdict;
  /** What the verdict speaks of; the rest was not judged, and why. */
  readonly scope: readonly string[];
  readonly minimumFirstReachedAt?: Instant;
}
