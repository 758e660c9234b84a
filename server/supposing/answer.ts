/** What the judge says of the record as it is, and what it would say: side by side, and what differs. */
import type { Finding, Verdict } from '../judgement/assessment.ts';
import type { PassStatus } from '../judgement/pass-status.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Problem } from '../weld/problems.ts';
import type { Supposition } from './supposition.ts';

/** First moment at which all was ready, since the pass before had ended, in each case that is possible; absent where it never was. */
export interface PassTimes {
  readonly pass: string;
  readonly startedAt: Instant;
  readonly readyAt?: Instant;
  /** not known: between what is possible it could be either. */
  readonly minimum: PassStatus['minimum'] | 'not known';
  readonly maximum: PassStatus['maximum'] | 'not known';
}

export interface Judged {
  readonly verdict: Verdict;
  /** Before the first pass: ready for the first time. */
  readonly firstReadyAt?: Instant;
  /** The coldest point through every part was at the minimum, and held as asked, for the first time. */
  readonly coreAt?: Instant;
  readonly passes: readonly PassTimes[];
}

/** What had to be taken for granted, or left open; each has its words. */
export type Remark =
  /** Readings of the heated face are those that were measured: with less loss it would have been as warm or warmer. */
  | 'heated face as measured'
  /** The far face was measured as it was, not insulated: those readings are left out, and findings are not compared. */
  | 'far face was measured'
  | 'far face had no bearing'
  | 'place not measured then'
  | 'entries about the probe left out'
  | 'nothing else is done meanwhile'
  | 'later passes as they were'
  | 'evenness cannot be known'
  | 'some places cannot be carried on'
  | 'limits of no procedure';

/** Which state of the record was judged. */
export interface Stood {
  readonly at: Instant;
  /** Not closed by then: every verdict is one so far. */
  readonly open: boolean;
  /** More was recorded since, and is left out. */
  readonly past: boolean;
}

export interface SupposedAnswer {
  readonly supposition: Supposition;
  readonly stood: Stood;
  readonly now: Judged;
  /** Verdicts it could be; two where the supposition does not settle it. None where it cannot be told at all. */
  readonly verdicts: readonly Verdict[];
  readonly wouldBe: Omit<Judged, 'verdict'>;
  readonly gone: readonly Finding[];
  readonly come: readonly Finding[];
  /** Would stay, go or come: between what is possible both are so. */
  readonly unsure: readonly Finding[];
  /** Of "more time": where each place would have been when the pass began, thousandths of a degree. */
  readonly places?: readonly SupposedPlace[];
  readonly remarks: readonly Remark[];
}

export interface SupposedPlace {
  readonly probe: string;
  readonly asMeasured?: number;
  /** Absent where its course does not tell. */
  readonly low?: number;
  readonly high?: number;
}

export interface NotSupposed {
  readonly problems: readonly Problem[];
}

/** What a finding is of, whenever it was. */
export const sameOf = ({ kind, probe, pass, part, instrument, board, item }: Finding): string =>
  [kind, probe, pass, part, instrument, board, item].join('/');

/** Those of the first that the second has not. */
export function without(findings: readonly Finding[], others: readonly Finding[]): Finding[] {
  const known = new Set(others.map(sameOf));
  return findings.filter((each) => !known.has(sameOf(each)));
}
