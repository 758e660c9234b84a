/**
 * What a report is made from: the verified record, judged anew. Plain data; whoever gathers it has read the
 * record and folded it. Nothing here is rounded, worded or laid out.
 */
import type { Assessment, Verdict } from '../judgement/assessment.ts';
import type { Conclusion } from '../judgement/conclusions.ts';
import type { SectionCourse } from '../judgement/inside/section-status.ts';
import type { HandReading } from '../judgement/measuring/hand-reading.ts';
import type { Removed } from '../ledger/removal-entry.ts';
import type { HistoryView } from '../measure/history.ts';
import type { Instant } from '../measure/quantity.ts';
import type { SeenStamp } from '../proof/stamps.ts';
import type { SignedHead } from '../record/head.ts';
import type { Repair } from '../record/repairs.ts';
import type { Input, Source } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Signed } from '../weld/signed.ts';

export interface ReportFacts {
  /** As last revised. */
  readonly joint: Joint;
  /** The whole record judged again, now. */
  readonly assessment: Assessment;
  /** Heat through each part over the whole record, as judged now. */
  readonly courses: readonly SectionCourse[];
  /** Every reading taken by hand, as judged now, oldest first. */
  readonly handReadings: readonly HandReading[];
  /** What was recorded when the joint was closed. Absent while it is open, and for an imported log. */
  readonly recordedVerdict?: RecordedVerdict;
  /** What the judge said while the joint lived, in the order of the chain. */
  readonly recordedConclusions?: readonly RecordedConclusion[];
  /** The recorded conclusions and those of now are not the same. A differing verdict counts even if this is false. */
  readonly differs: boolean;
  /** Why they differ, as far as known. */
  readonly differsBecause?: DifferenceCause;
  /** The readings are in a package: nothing was judged again, the assessment is what was recorded, and there is no history. */
  readonly readingsRemoved?: Removed;
  readonly source: Source;
  readonly program: { readonly name: string; readonly version: string };
  /** Identity of the rules that judged now. */
  readonly rules: string;
  readonly station: string;
  readonly openedBy: string;
  /** Chain empty for an imported log, which stands on no record. */
  readonly head: SignedHead;
  readonly entries: number;
  readonly openedAt: Instant;
  readonly closedAt?: Instant;
  /** Of the last entry or reading. The report is dated by it, so that the same record gives the same bytes. */
  readonly lastAt: Instant;
  /** IANA name of the zone that local times are printed in. */
  readonly zone: string;
  readonly periodMilliseconds: number;
  /** Everything but the readings, in the order of the chain. */
  readonly timeline: readonly TimelineEntry[];
  readonly history: HistoryView;
  readonly documents: readonly KeptDocument[];
  /** Of heads of the joint's chain; none of an imported log. */
  readonly stamps: readonly SeenStamp[];
  /** Joints of the same record that mend it; absent for an imported log. */
  readonly repairs?: readonly Repair[];
}

export interface RecordedVerdict {
  readonly verdict: Verdict;
  readonly at: Instant;
  readonly rules: string;
}

export interface RecordedConclusion {
  readonly at: Instant;
  readonly conclusion: Conclusion;
}

export interface DifferenceCause {
  readonly kind: 'rules version' | 'calibration entry' | 'altered record' | 'late entry' | 'not known';
  /** In words, where more is known: which entry, which two versions. */
  readonly detail?: string;
}

export interface TimelineEntry {
  readonly seq: number;
  readonly input: Exclude<Input, { type: 'scan' }>;
  /** Of a job that is kept from its logs: when it was written and by whom; the input has the time that it has by the log. */
  readonly kept?: { readonly at: Instant; readonly by: Signed };
}

export interface KeptDocument {
  readonly title: string;
  readonly mediaType: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly at: Instant;
  readonly who: string;
  /** The bytes are kept and have this hash; false where they are missing or altered. */
  readonly present: boolean;
}

/** Judged and recorded are not the same: by the flag, or by the two verdicts themselves. */
export const verdictsDiffer = ({ differs, recordedVerdict, assessment }: ReportFacts): boolean =>
  differs || (recordedVerdict !== undefined && recordedVerdict.verdict !== assessment.verdict);
