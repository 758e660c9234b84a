/**
 * What goes between the station and a screen. The web imports this file and the pure rooms, nothing else
 * of the server. Server to browser over socket.io: 'state', 'live', 'station'. Browser to server over
 * HTTP for acts, so that each is answered only once it is recorded.
 *
 *   GET  /api/station                    -> StationView
 *   GET  /api/joints                     -> JointSummary[]
 *   POST /api/joints {who, joint}        -> 201 {joint: id} | 422 {problems}
 *   POST /api/requirement {joint}        -> 200 Requirement | 422 {problems}   (as one types; nothing is kept)
 *   GET  /api/joints/:id                 -> JointState
 *   POST /api/joints/:id/acts NamedAct   -> 201 {position} | 422 {problems} | 503 not recording
 *   POST /api/joints/:id/documents       -> 201 {sha256}      (raw body, Content-Type is the media type)
 *   POST /api/joints/:id/readings/package -> PackageSeen | 422 {problems}  (raw body, a .zip; weld/package-seen.ts)
 *   POST /api/joints/:id/readings {who, package, reason?}  -> 201 {text} | 422 {problems} | 503  (out of the record, or back)
 *   GET  /api/procedures                 -> KeptRevision[]    (oldest first; weld/procedure-act.ts)
 *   POST /api/procedures {who, revision, reason?}          -> 201 {position} | 422 {problems} | 503
 *   POST /api/procedures/:sha256/withdrawal {who, reason}  -> the same
 *   GET  /api/procedures/:sha256/procedure.json            (the revision as a file)
 *   GET  /api/connections                -> ConnectionsView
 *   POST /api/connections {connection}, DELETE /api/connections/:name        (kept for the station; 422 {problems} | 403 | 409)
 *   POST /api/connections/trial {connection} -> 201 {id}, GET /api/connections/trial/:id -> TrialView, DELETE /api/connections/trial
 *   GET  /api/joints/:id/history?from=&to=&points=  -> HistoryView (first, minimum, maximum, last of each step)
 *                                        410 {because} where the readings are in a package; so do CSV and what-if
 *   GET  /api/joints/:id/timeline        -> TimelineEvent[]
 *   GET  /api/joints/:id/alarms          -> AlarmEvent[]     (each change of an alarm, as it was recorded)
 *   GET  /api/joints/:id/report.pdf, working.pdf, card.pdf, /api/joints/:id/readings.csv, passes.csv
 *
 * socket.io: client emits 'follow' {joint, after: position}; the server answers with 'live' messages from
 * that position on, without a hole, and goes on. 'station' comes every second.
 */
import type { Alarm, Assessment } from '../judgement/assessment.ts';
import type { Outlook, SectionCourse } from '../judgement/inside/section-status.ts';
import type { Removed } from '../ledger/removal-entry.ts';
import type { Instant } from '../measure/quantity.ts';
import type { FoundJoint } from '../past/view.ts';
import type { Repair } from '../record/repairs.ts';
import type { Joint } from '../weld/joint.ts';
import type { Proof } from '../weld/person.ts';
import type { Binding } from '../weld/procedure-act.ts';
import type { Quality } from '../weld/scan.ts';

export interface Problem {
  /** Path of the field, as in "parts.0.thicknessMillimetres". */
  readonly field: string;
  readonly found: string;
  readonly allowed: string;
}

export interface LinkView {
  readonly port: string;
  readonly state: 'opening' | 'waiting for hello' | 'open' | 'lost' | 'refused';
  readonly board?: string;
  readonly simulated?: boolean;
  readonly verified: boolean;
  /** Why, in a few words, and what to do, where it is not open. */
  readonly cause?: string;
  readonly advice?: string;
  readonly linesGood: number;
  readonly linesBad: number;
  /** How it is read, where it is an instrument that was connected: "Modbus RTU". */
  readonly way?: string;
  readonly errors?: readonly { readonly what: string; readonly times: number }[];
  readonly lastError?: string;
}

/** What lamp, horn and permission of one board are told, and whether it does so. Permission is no safety interlock. */
export interface SignalView {
  readonly board: string;
  readonly lamp: 'off' | 'on' | 'slow' | 'fast';
  readonly horn: 'off' | 'on';
  readonly permission: 'withheld' | 'given';
  readonly why:
    | 'no open joint'
    | 'ready'
    | 'pass within limits'
    | 'waiting'
    | 'alarm'
    | 'pass outside'
    | 'not known'
    | 'measures too seldom';
  readonly outputs: readonly {
    readonly output: 'lamp' | 'horn' | 'permission' | 'heartbeat';
    readonly outcome: 'not told' | 'waiting' | 'done' | 'refused' | 'silent';
  }[];
}

/** An alarm that nobody has acknowledged, of whichever open joint. */
export interface AttentionView {
  readonly joint: string;
  readonly title: string;
  readonly key: string;
  readonly priority: 'high' | 'medium' | 'low';
  /** In words, in the job's units. */
  readonly what: string;
}

export interface StationView {
  readonly now: Instant;
  readonly recording: boolean;
  readonly notRecordingBecause?: string;
  readonly demonstration: boolean;
  /** The last step of the station's wall clock since it was started. */
  readonly clockStep?: { readonly at: Instant; readonly steppedMilliseconds: number };
  /** Words about the source where they matter: in-process port instead of a pseudo-terminal, for instance. */
  readonly remark?: string;
  readonly links: readonly LinkView[];
  /** Most urgent first; for sound and notification on any page. */
  readonly attention: readonly AttentionView[];
  /** Present where the station was asked to drive them. */
  readonly signals?: readonly SignalView[];
  /** Present where the station looks after its record as a whole. */
  readonly keeping?: KeepingView;
}

/** The newest look at the whole record, and the newest copy of it. */
export interface KeepingView {
  readonly check?: {
    readonly at: Instant;
    readonly entries: number;
    readonly fault?: string;
    /** Joints whose readings are in packages; absent: none. */
    readonly away?: number;
    /** Joints of which the search list said something else than their chain. */
    readonly cards?: readonly string[];
  };
  readonly copy?: { readonly at: Instant; readonly folder?: string; readonly failed?: string };
}

/** The head of a joint's record, to be carried out of the house. */
export interface HeadView {
  readonly seq: number;
  /** `CHAIN=SEQ:HASH:SIGNATURE`, or without a signature in a record without a key. */
  readonly text: string;
  /** Of the key that signed it. */
  readonly fingerprint?: string;
}

export interface JointSummary {
  readonly id: string;
  readonly title: string;
  readonly assessment: Assessment;
}

/** What stands in the list of joints. */
export interface JointsView {
  readonly open: readonly JointSummary[];
  /** The newest of the closed ones, as recorded; absent while they are looked up for the first time. */
  readonly closed?: readonly FoundJoint[];
}

export interface JointState {
  readonly joint: Joint;
  readonly assessment: Assessment;
  /** Position in the record up to which this state speaks. */
  readonly position: number;
  readonly periodMilliseconds: number;
  readonly headHash: string;
  readonly entries: number;
  /** Where the joint's probes and what the boards say of their channels do not agree; each with what to do. */
  readonly wiring?: readonly string[];
  /** Heat through each part so far, thinned. */
  readonly courses: readonly SectionCourse[];
  /** What lies ahead; absent once the joint is closed. */
  readonly outlook?: Outlook;
  /** Absent where the station keeps no procedure of that name. */
  readonly binding?: Binding;
  /** The readings are in a package and not in the record: nothing was judged again, and what stands in the assessment is what was recorded. */
  readonly readingsRemoved?: Removed;
  /** Joints of this record that mend it. */
  readonly repairs?: readonly Repair[];
}

/** One committed step of one joint. */
export interface LiveMessage {
  readonly joint: string;
  readonly position: number;
  /** Server's wall clock when it was sent. */
  readonly now: Instant;
  readonly readings: readonly LiveReading[];
  /** Present when anything but readings changed, and at least once a second. */
  readonly assessment?: Assessment;
  /** Present when it was made anew, every few seconds. */
  readonly outlook?: Outlook;
}

export interface LiveReading {
  readonly probe: string;
  readonly at: Instant;
  readonly quality: Quality;
  /** Thousandths of a degree Celsius; absent unless good. */
  readonly temperature?: number;
}

export type { HistorySeries, HistoryView } from '../measure/history.ts';

export interface TimelineEvent {
  readonly at: Instant;
  readonly seq: number;
  readonly who: string;
  readonly role?: string;
  /** How the name was established; absent in entries of before and of the station itself. */
  readonly proof?: Proof;
  /** Kind of entry as in weld/entry.ts: 'heat', 'pass start', 'link', 'note', ... */
  readonly kind: string;
  readonly body: unknown;
  /** Of a job that is kept from its logs: when the entry was written and by whom. Time and person above are those of the log. */
  readonly kept?: { readonly at: Instant; readonly who: string; readonly role?: string; readonly proof?: Proof };
}

export interface AlarmEvent {
  readonly at: Instant;
  readonly change: 'changed' | 'gone';
  readonly alarm: Alarm;
}

export type { ConnectionsView, TrialView } from './connections-view.ts';
export type { CaptureRow, LinkRow, LinksView, PortRow, RawLineView } from './links-view.ts';
export type { LogFileView, LogLine, LogsView } from './logs-view.ts';
