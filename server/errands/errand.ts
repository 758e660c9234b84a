/** Work that takes longer than a reading may wait: done beside the trip, on a connection of its own that can only read. */
import type { Assessment } from '../judgement/assessment.ts';
import type { SectionCourse } from '../judgement/inside/section-status.ts';
import { firstOf, type JudgeMemory, judgeAll } from '../judgement/judge.ts';
import { measuredOverTime } from '../judgement/measuring/over-time.ts';
import { inputOf } from '../ledger/item.ts';
import type { HistoryView } from '../measure/history.ts';
import type { Instant } from '../measure/quantity.ts';
import { asRecorded } from '../past/as-recorded.ts';
import type { Statistics } from '../past/statistics.ts';
import type { FoundView } from '../past/view.ts';
import type { Program } from '../program.ts';
import { longestPeriod } from '../record/periods.ts';
import type { RecordReader } from '../record/read.ts';
import { thinJudgedCourses } from '../record/thin-judged.ts';
import { readingsCsv } from '../report/csv.ts';
import { gather, ofRecord } from '../report/gather.ts';
import { openingOf } from '../report/gathering.ts';
import { makePackage } from '../report/package/make.ts';
import { shippedParts } from '../report/package/shipped.ts';
import { pages } from '../report/pages.ts';
import { handOverPage } from '../report/papers/hand-over-page.ts';
import { paperFacts } from '../report/papers/of-record.ts';
import { type PaperKind, papers } from '../report/papers/papers.ts';
import { passesCsv } from '../report/passes-csv.ts';
import { renderPdf } from '../report/pdf.ts';
import type { LogsView } from '../screen/logs-view.ts';
import type { NotSupposed, SupposedAnswer } from '../supposing/answer.ts';
import { suppose } from '../supposing/suppose.ts';
import type { Question } from '../supposing/supposition.ts';
import { arrival, type Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Scan } from '../weld/scan.ts';
import type { Signed } from '../weld/signed.ts';
import type { NotDecided, WholeJob } from './keep-logs.ts';
import type { KeepingErrand, KeepingOutcome } from './keeping.ts';
import { keepLogs, type LogsErrand, reportLogs, viewLogs } from './logs.ts';
import { lookAtPackage, type PackageErrand, type PackageLooked } from './packaged.ts';
import { type CardsToKeep, type PastErrand, type PastOutcome, runPast } from './past.ts';

export type Errand =
  | {
      readonly kind: 'history';
      readonly joint: string;
      readonly probes: readonly string[];
      readonly from: Instant;
      readonly to: Instant;
      readonly points: number;
    }
  | { readonly kind: 'judge'; readonly joint: string }
  /** The first so many inputs judged, and what the judge remembers after them. */
  | { readonly kind: 'fold anew'; readonly joint: string; readonly inputs: number }
  | { readonly kind: 'pdf' | 'hand-over'; readonly joint: string; readonly zone: string }
  | ({ readonly kind: 'logs' } & LogsErrand)
  | ({ readonly kind: 'report of logs'; readonly zone: string } & LogsErrand)
  | ({ readonly kind: 'keep logs'; readonly keeper: Signed } & LogsErrand)
  | { readonly kind: 'paper'; readonly joint: string; readonly paper: PaperKind; readonly address: string }
  | { readonly kind: 'package'; readonly joint: string; readonly zone: string }
  | { readonly kind: 'csv'; readonly of: TableKind; readonly joint: string; readonly zone: string }
  | PastErrand
  /** The judge over the record with one stated change; nothing of it is kept. */
  | { readonly kind: 'suppose'; readonly joint: string; readonly question: Question }
  | PackageErrand
  | KeepingErrand;

/** Tables that a joint's record is given out as. */
export type TableKind = 'readings' | 'passes';

export interface Judged {
  readonly joint: Joint;
  readonly assessment: Assessment;
  readonly courses: readonly SectionCourse[];
  readonly periodMilliseconds: number;
}
export type Outcome<E extends Errand> = E extends { kind: 'history' }
  ? HistoryView
  : E extends { kind: 'logs' }
    ? LogsView
    : E extends { kind: 'keep logs' }
      ? LogsView | WholeJob | NotDecided
      : E extends { kind: 'judge' }
        ? Judged
        : E extends { kind: 'fold anew' }
          ? JudgeMemory
          : E extends PastErrand
            ? PastOutcome<E>
            : E extends { kind: 'suppose' }
              ? SupposedAnswer | NotSupposed
              : E extends PackageErrand
                ? PackageLooked
                : E extends KeepingErrand
                  ? KeepingOutcome<E>
                  : Uint8Array;

/** Done over a connection that is open already. */
export type ReadingErrand = Exclude<Errand, KeepingErrand>;

export async function run(
  errand: ReadingErrand,
  reader: RecordReader,
  program: Program,
  seal?: (bytes: Uint8Array) => Uint8Array,
): Promise<
  | HistoryView
  | Judged
  | JudgeMemory
  | LogsView
  | WholeJob
  | NotDecided
  | FoundView
  | Statistics
  | CardsToKeep
  | SupposedAnswer
  | NotSupposed
  | PackageLooked
  | Uint8Array
> {
  switch (errand.kind) {
    case 'history':
      return thinJudgedCourses(
        reader.coursesBetween(errand.joint, errand.from, errand.to),
        measuredOverTime(entriesOf(reader, errand.joint)),
        {
          ...errand,
          periodMilliseconds: longestPeriod(entriesOf(reader, errand.joint), errand.from, errand.to),
        },
      );
    case 'logs':
      return viewLogs(errand, program, reader);
    case 'report of logs':
      return reportLogs(errand, program, errand.zone);
    case 'keep logs':
      return keepLogs(errand, program, reader);
    case 'judge':
      return reader.removed(errand.joint) === undefined
        ? judged(reader, errand.joint)
        : judgedThen(reader, errand.joint);
    case 'fold anew':
      return judgeAll({
        [Symbol.iterator]: () => firstOf(reader.inputs(errand.joint), errand.inputs)[Symbol.iterator](),
      }).judge.memory();
    case 'pdf':
    case 'hand-over': {
      const facts = gather({ ...ofRecord(reader, errand.joint), program, rules: program.rules, zone: errand.zone });
      return renderPdf(errand.kind === 'pdf' ? pages(facts) : handOverPage(facts));
    }
    case 'paper':
      return renderPdf(papers[errand.paper](paperFacts(reader, errand.joint, errand.address)));
    case 'csv':
      return csvOf(reader, errand);
    case 'package':
      return packageOf(reader, errand, program, seal);
    case 'suppose':
      return suppose(reader.inputs(errand.joint), errand.question);
    case 'look at package':
      return lookAtPackage(reader, errand);
    case 'find':
    case 'found as CSV':
    case 'statistics':
    case 'statistics as CSV':
    case 'cards to keep':
      return runPast(errand, reader, program);
  }
}

export async function packageOf(
  reader: RecordReader,
  { joint, zone }: { readonly joint: string; readonly zone: string },
  program: Program,
  seal: ((bytes: Uint8Array) => Uint8Array) | undefined,
): Promise<Uint8Array> {
  const report = await renderPdf(pages(gather({ ...ofRecord(reader, joint), program, rules: program.rules, zone })));
  const tables =
    reader.removed(joint) === undefined
      ? {
          readings: csvOf(reader, { joint, zone, of: 'readings' }),
          passes: csvOf(reader, { joint, zone, of: 'passes' }),
        }
      : {};
  return makePackage({ reader, chain: joint, report, ...tables, ...shippedParts(), ...(seal && { seal }) });
}

function csvOf(
  reader: RecordReader,
  { joint: chain, zone, of }: { readonly joint: string; readonly zone: string; readonly of: TableKind },
): Uint8Array {
  const { joint, assessment, station } = judged(reader, chain);
  const origin = { source: assessment.source.kind, station, joint: chain, zone };
  const text =
    of === 'passes'
      ? passesCsv(assessment, joint, origin)
      : [...readingsCsv(scansOf(reader, chain), joint, origin, measuredOf(reader, chain))].join('');
  return new TextEncoder().encode(text);
}

interface JudgedOf extends Judged {
  readonly station: string;
}

function judged(reader: RecordReader, chain: string): JudgedOf {
  let joint: Joint | undefined;
  let periodMilliseconds = 1000;
  let station = '';
  let last = 0 as Instant;
  for (const input of reader.inputs(chain)) {
    last = Math.max(last, arrival(input)) as Instant;
    if (input.type === 'station' && input.event.kind === 'opened')
      ({ joint, periodMilliseconds, station } = input.event);
    if (input.type === 'act' && input.act.kind === 'revise') joint = input.act.joint;
  }
  if (joint === undefined) throw new Error(`the record of ${chain} has no opening entry`);
  const { judge, assessment } = judgeAll(reader.inputs(chain), last);
  return { joint, periodMilliseconds, station, assessment, courses: judge.courses(assessment.at) };
}

/** Where the readings are in a package: what was recorded, and nothing judged again. */
function judgedThen(reader: RecordReader, chain: string): JudgedOf {
  const { timeline, conclusions } = ofRecord(reader, chain);
  const { joint, opened } = openingOf(timeline);
  const inputs = timeline.map(({ input }) => input);
  const assessment = asRecorded(
    inputs,
    conclusions.map(({ conclusion }) => conclusion),
  );
  const { periodMilliseconds, station } = opened;
  return { joint, periodMilliseconds, station, assessment, courses: [] };
}

const measuredOf = (reader: RecordReader, chain: string) => measuredOverTime(entriesOf(reader, chain));

function* scansOf(reader: RecordReader, chain: string): Iterable<Scan> {
  for (const input of reader.inputs(chain)) if (input.type === 'scan') yield input.scan;
}

function* entriesOf(reader: RecordReader, chain: string): Iterable<Input> {
  for (const entry of reader.entries(chain)) {
    const input = inputOf(entry);
    if (input !== undefined) yield input;
  }
}
