/**
 * The logs of one job, read each by itself and joined in order of time. A logger that was started anew writes another file of
 * the same probes; two loggers write two files of different probes. Where two files speak of one probe at one time they must
 * say the same; where they do not, a person says which holds.
 */
import type { Instant } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import { type Log, type LogMapping, readLog } from './log-file.ts';
import type { LogProblem } from './log-problem.ts';
import { logBoard } from './log-rows.ts';
import type { LogSource, Unread } from './log-source.ts';

export interface NamedLog {
  readonly name: string;
  readonly source: string | Uint8Array | LogSource | Unread;
  /** What holds for this file in place of what holds for all. */
  readonly own?: Partial<LogMapping>;
}

export interface LogSet extends Omit<Log, 'guess' | 'problems' | 'remarks' | 'skipped'> {
  readonly files: readonly { readonly name: string; readonly log: Log }[];
  /** Of the files together. */
  readonly problems: readonly LogProblem[];
  readonly remarks: readonly LogProblem[];
}

export const readLogs = (logs: readonly NamedLog[], mapping: LogMapping): LogSet => {
  const isPart = logs.length > 1;
  const files = logs.map(({ name, source, own }) => ({ name, log: readLog(source, { ...mapping, ...own, isPart }) }));
  const [first] = files;
  if (first === undefined) return { ...nothing, files, problems: [{ message: 'there is no log' }] };
  if (files.length === 1) return { ...first.log, files, problems: [], remarks: [] };
  const broken = files.some(({ log }) => log.problems.length > 0);
  return broken ? { ...nothing, files, problems: [] } : joined(files, mapping);
};

interface File {
  readonly name: string;
  readonly log: Log;
}

const nothing = { scans: [], remarks: [], rows: 0 } as const;

const joined = (files: readonly File[], mapping: LogMapping): LogSet => {
  const problems: LogProblem[] = [];
  const remarks: LogProblem[] = [];
  const held = new Set(files.flatMap(({ log }) => probesOf(log)));
  const absent = mapping.probes.filter(({ id }) => !held.has(id)).map(({ id }) => id);
  if (absent.length > 0) {
    problems.push({ message: `no file has a column for ${absent.join(', ')}`, question: { asks: 'columns' } });
  }
  const forms = new Set(files.map(({ log }) => (log.timeForm === 'elapsed' ? 'elapsed' : 'dated')));
  if (forms.size > 1)
    problems.push({ message: 'some files have elapsed times and some have dates; they cannot be joined' });
  if (forms.has('elapsed') && forms.size === 1) {
    problems.push({
      message: 'the files count elapsed time, each from its own beginning; a log with dates is needed to join them',
    });
  }
  if (problems.length > 0) return { ...nothing, files, problems };

  const loggers = loggersOf(files);
  for (const { members } of loggers) tellOverlaps(members, problems, remarks);
  const inOrder = [...files].toSorted((a, b) => at(a.log.firstAt) - at(b.log.firstAt));
  remarks.push({ message: `joined in order of time: ${inOrder.map(({ name }) => name).join(', ')}` });
  const periods = files.map(({ log }) => log.periodMilliseconds ?? 0).filter((each) => each > 0);
  return {
    files,
    problems,
    remarks,
    scans: problems.length > 0 ? [] : { [Symbol.iterator]: () => merged(loggers) },
    rows: files.reduce((sum, { log }) => sum + log.rows, 0),
    ...(periods.length === 0 ? {} : { periodMilliseconds: Math.max(...periods) as never }),
    firstAt: Math.min(...files.map(({ log }) => at(log.firstAt))) as Instant,
    lastAt: Math.max(...files.map(({ log }) => at(log.lastAt))) as Instant,
    ...(first(files)?.timeForm === undefined ? {} : { timeForm: first(files)!.timeForm! }),
  };
};

const first = (files: readonly File[]): Log | undefined => files[0]?.log;
const at = (instant: Instant | undefined): number => instant ?? 0;
const probesOf = (log: Log): readonly string[] => log.guess?.probes.map(({ probe }) => probe) ?? [];

/** Files that share a probe are of one logger, and go one behind the other. */
interface Logger {
  readonly board: string;
  readonly members: readonly File[];
}

const loggersOf = (files: readonly File[]): readonly Logger[] => {
  const groups: { probes: Set<string>; members: File[] }[] = [];
  for (const file of files) {
    const probes = new Set(probesOf(file.log));
    const sharing = groups.filter((group) => [...probes].some((probe) => group.probes.has(probe)));
    const group = { probes, members: [file] };
    for (const each of sharing) {
      for (const probe of each.probes) group.probes.add(probe);
      group.members.unshift(...each.members);
      groups.splice(groups.indexOf(each), 1);
    }
    groups.push(group);
  }
  return groups.map(({ members }, index) => ({
    board: index === 0 ? logBoard : `${logBoard} ${index + 1}`,
    members: members.toSorted((a, b) => at(a.log.firstAt) - at(b.log.firstAt)),
  }));
};

/** Where one file begins before the one ahead of it ends, both must hold the same rows there. */
const tellOverlaps = (members: readonly File[], problems: LogProblem[], remarks: LogProblem[]): void => {
  let ahead = members[0]!;
  for (const next of members.slice(1)) {
    const from = at(next.log.firstAt);
    const to = Math.min(at(ahead.log.lastAt), at(next.log.lastAt));
    if (from <= to) {
      const span = `from ${utc(from)} to ${utc(to)}`;
      const differing = differenceIn(ahead.log, next.log, from, to);
      if (differing === undefined) {
        remarks.push({ message: `${next.name} repeats what ${ahead.name} holds ${span}; it is taken once` });
      } else {
        problems.push({
          message: `${ahead.name} and ${next.name} both speak of the time ${span} and differ at ${utc(differing)}; cut one of them, so that each time stands once`,
        });
      }
    }
    if (at(next.log.lastAt) > at(ahead.log.lastAt)) ahead = next;
  }
};

const utc = (instant: number): string => new Date(instant).toISOString();

const differenceIn = (a: Log, b: Log, from: number, to: number): number | undefined => {
  const held = new Map<number, string>();
  for (const { measuredAt, values } of a.scans) {
    if (measuredAt >= from && measuredAt <= to) held.set(measuredAt, JSON.stringify(values));
  }
  for (const { measuredAt, values } of b.scans) {
    if (measuredAt < from || measuredAt > to) continue;
    if (held.get(measuredAt) !== JSON.stringify(values)) return measuredAt;
    held.delete(measuredAt);
  }
  return [...held.keys()][0];
};

/** Scans of all loggers by time; each logger's as one run, as if it had written one file. */
function* merged(loggers: readonly Logger[]): Generator<Scan> {
  const runs = loggers.map(({ board, members }) => ({
    scans: runOf(board, members),
    next: undefined as Scan | undefined,
  }));
  for (const run of runs) run.next = run.scans.next().value as Scan | undefined;
  for (;;) {
    let earliest: (typeof runs)[number] | undefined;
    for (const run of runs) {
      if (run.next !== undefined && (earliest?.next === undefined || run.next.measuredAt < earliest.next.measuredAt)) {
        earliest = run;
      }
    }
    if (earliest?.next === undefined) return;
    yield earliest.next;
    earliest.next = earliest.scans.next().value as Scan | undefined;
  }
}

function* runOf(board: string, members: readonly File[]): Generator<Scan> {
  const begin = at(members[0]?.log.firstAt);
  let last = Number.NEGATIVE_INFINITY;
  let sequence = 0;
  for (const { log } of members) {
    for (const scan of log.scans) {
      if (scan.measuredAt <= last) continue;
      last = scan.measuredAt;
      yield { ...scan, board, sequence, ticks: scan.measuredAt - begin };
      sequence += 1;
    }
  }
}
