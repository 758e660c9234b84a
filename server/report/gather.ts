/**
 * Gathers the facts of a report: the record's inputs folded anew, beside what was concluded when they came.
 * The same for a joint on the record and for an imported log.
 */
import type { Assessment, Verdict } from '../judgement/assessment.ts';
import type { Conclusion } from '../judgement/conclusions.ts';
import { judgeAll } from '../judgement/judge.ts';
import { measuredOverTime } from '../judgement/measuring/over-time.ts';
import { type CommittedEntry, inputOf, isImported } from '../ledger/item.ts';
import type { HistoryView } from '../measure/history.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { standingFindings } from '../past/as-recorded.ts';
import { longestPeriod } from '../record/periods.ts';
import type { RecordReader } from '../record/read.ts';
import { repairsOf } from '../record/repairs.ts';
import type { ThinOptions } from '../record/thin.ts';
import { thinJudged, thinJudgedCourses } from '../record/thin-judged.ts';
import { arrival, type Input } from '../weld/entry.ts';
import type { Scan } from '../weld/scan.ts';
import { signedOf } from '../weld/signed.ts';
import type { RecordedConclusion, ReportFacts, TimelineEntry } from './facts.ts';
import { gatherAsRecorded } from './gather-as-recorded.ts';
import { documentsOf, type Gathering, openingOf, verdictOf } from './gathering.ts';

/** What a record holds of one joint, for gather. */
export function ofRecord(reader: RecordReader, chain: string): Omit<Gathering, 'program' | 'rules' | 'zone'> {
  const entries = [...reader.entries(chain)];
  const removed = reader.removed(chain);
  return {
    inputs: () => reader.inputs(chain),
    courses: (from, to) => reader.coursesBetween(chain, from, to),
    timeline: entries.flatMap(timelineEntry),
    conclusions: [...reader.conclusions(chain)].map((each) => ({ at: each.at, conclusion: each.body as Conclusion })),
    head: reader.signedHead(chain),
    document: (sha256) => reader.document(sha256) !== undefined,
    repairs: repairsOf(reader, chain),
    stamps: reader.stamps(chain),
    ...(removed === undefined ? {} : { removed }),
  };
}

/** Throws where the inputs do not begin with an opening entry. */
export function gather(from: Gathering): ReportFacts {
  if (from.removed !== undefined) return gatherAsRecorded(from, from.removed);
  const { opened, openedAt, closedAt, joint } = openingOf(from.timeline);
  const { seen, inputs } = watching(from.inputs);
  const { judge, assessment } = judgeAll(inputs, () => seen.last);
  const { last, firstScanAt } = seen;
  const recordedVerdict = verdictOf(from.conclusions, opened.rules);
  const differs = recordedVerdict !== undefined && !isSame(from.conclusions, assessment, recordedVerdict.verdict);
  return {
    joint,
    assessment,
    courses: judge.courses(last),
    handReadings: judge.handReadings(),
    ...(recordedVerdict === undefined ? {} : { recordedVerdict }),
    recordedConclusions: from.conclusions,
    differs,
    ...(differs
      ? {
          differsBecause: {
            kind: opened.rules === from.rules ? 'not known' : 'rules version',
            detail: `recorded by ${opened.rules}, judged now by ${from.rules}`,
          },
        }
      : {}),
    source: assessment.source,
    ...(from.repairs === undefined ? {} : { repairs: from.repairs }),
    stamps: from.stamps ?? [],
    program: from.program,
    rules: from.rules,
    station: opened.station,
    openedBy: opened.openedBy,
    head: from.head,
    entries: from.head.seq,
    openedAt,
    ...(closedAt === undefined ? {} : { closedAt }),
    lastAt: last,
    zone: from.zone,
    periodMilliseconds: opened.periodMilliseconds,
    timeline: from.timeline,
    history: historyOf(from, {
      probes: joint.probes.map((probe) => probe.id),
      from: firstScanAt ?? openedAt,
      to: last,
      points: limits.reportPointsMaximum,
      periodMilliseconds: longestPeriod(timelineInputs(from), openedAt, last),
    }),
    documents: documentsOf(from),
  };
}

function timelineEntry(entry: CommittedEntry): TimelineEntry[] {
  const input = inputOf(entry);
  if (input === undefined || input.type === 'scan') return [];
  const kept = isImported(entry.body) ? { kept: { at: entry.at, by: signedOf(entry) } } : {};
  return [{ seq: entry.seq, input, ...kept }];
}

/** The inputs as they are gone through, and what was seen of them by then: a long job is read as few times as can be. */
function watching(inputs: () => Iterable<Input>) {
  const seen: { last: Instant; firstScanAt?: Instant } = { last: 0 as Instant };
  const iterate = function* (): Iterator<Input> {
    for (const input of inputs()) {
      seen.last = Math.max(seen.last, arrival(input)) as Instant;
      if (input.type === 'scan') seen.firstScanAt ??= input.scan.measuredAt;
      yield input;
    }
  };
  return { seen, inputs: { [Symbol.iterator]: iterate } };
}

const timelineInputs = ({ timeline }: Gathering): Input[] => timeline.map(({ input }) => input);

function historyOf(from: Gathering, options: ThinOptions): HistoryView {
  const measured = measuredOverTime(timelineInputs(from));
  return from.courses === undefined
    ? thinJudged(scansOf(from.inputs()), measured, options)
    : thinJudgedCourses(from.courses(options.from, options.to), measured, options);
}

function* scansOf(inputs: Iterable<Input>): Iterable<Scan> {
  for (const input of inputs) if (input.type === 'scan') yield input.scan;
}

/** The same verdict by the same findings, each over the same time. */
function isSame(conclusions: readonly RecordedConclusion[], now: Assessment, recorded: Verdict): boolean {
  const standing = new Map(
    standingFindings(conclusions.map(({ conclusion }) => conclusion)).map((finding) => [finding.key, finding]),
  );
  return (
    recorded === now.verdict &&
    standing.size === now.findings.length &&
    now.findings.every((each) => standing.get(each.key)?.to === each.to)
  );
}
