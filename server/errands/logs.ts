/**
 * The errand of judging other people's logs: read as a person says, told how, judged once nothing has to be asked, and made
 * ready to be kept.
 */
import { judgeAll } from '../judgement/judge.ts';
import { sha256Hex } from '../ledger/hash.ts';
import type { Program } from '../program.ts';
import type { KeptImport, RecordReader } from '../record/read.ts';
import { gather } from '../report/gather.ts';
import { pages } from '../report/pages.ts';
import { renderPdf } from '../report/pdf.ts';
import type { LogsView } from '../screen/logs-view.ts';
import { arrival, type DispositionAct, type Input } from '../weld/entry.ts';
import type { ImportedFile } from '../weld/imported.ts';
import type { Joint } from '../weld/joint.ts';
import type { Signed } from '../weld/signed.ts';
import { type ActInput, readEvents } from '../wire/events-file.ts';
import { type Imported, importedInputs } from '../wire/imported-inputs.ts';
import type { LogMapping } from '../wire/log-file.ts';
import { logReadOf } from '../wire/log-read.ts';
import { type NamedLog, readLogs } from '../wire/log-set.ts';
import type { LogSource, Unread } from '../wire/log-source.ts';
import { openLog } from '../wire/workbook-source.ts';
import { importedFiles, type NamedBytes, type NotDecided, notDecided, type WholeJob, wholeJob } from './keep-logs.ts';

/** What a person says of how a log is read. */
export type LogSaid = Omit<LogMapping, 'probes'>;

export interface LogsErrand {
  readonly joint: Joint;
  /** `own`: what holds for one file in place of what holds for all. */
  readonly logs: readonly NamedBytes[];
  readonly mapping: LogSaid;
  /** What was done, as events files have it; without a name where it was typed on the page. */
  readonly events: readonly { readonly name?: string; readonly text: string }[];
  /** By whoever keeps it, on deviations as they were judged. */
  readonly decisions?: readonly DispositionAct[];
}

interface Read {
  readonly view: LogsView;
  /** Absent while something has to be asked or put right. */
  readonly imported?: Imported;
  readonly files: readonly ImportedFile[];
}

type Kept = Pick<RecordReader, 'importedFiles'>;

export const viewLogs = async (errand: LogsErrand, program: Program, kept?: Kept): Promise<LogsView> => {
  const { view, imported } = await readErrand(errand, program, kept);
  if (imported === undefined) return view;
  const { assessment } = judgeAll({ [Symbol.iterator]: () => importedInputs(imported)[Symbol.iterator]() });
  return { ...view, assessment };
};

/** Throws with words where the logs cannot be read as they are. */
export const reportLogs = async (errand: LogsErrand, program: Program, zone: string): Promise<Uint8Array> => {
  const { imported, files } = await readErrand(errand, program);
  if (imported === undefined) throw new Error('the logs cannot be read as they are; answer what is asked first');
  return importedReport(imported, files, program, zone);
};

/** The view alone where something has to be asked or put right first. */
export const keepLogs = async (
  errand: LogsErrand & { readonly keeper: Signed },
  program: Program,
  kept?: Kept,
): Promise<LogsView | WholeJob | NotDecided> => {
  const { view, imported, files } = await readErrand(errand, program, kept);
  if (imported === undefined) return view;
  const { decisions = [] } = errand;
  const { job, assessment } = wholeJob(imported, files, errand.keeper, decisions);
  const wrong = notDecided(assessment, decisions);
  return wrong.length === 0 ? job : { notDecided: wrong };
};

/** The report of logs that are in no record: it has no chain and no head, and says "imported" first. */
export const importedReport = (
  imported: Imported,
  files: readonly ImportedFile[],
  program: Program,
  zone: string,
): Promise<Uint8Array> => {
  const inputs = (): Iterable<Input> => importedInputs(imported);
  const [opened] = inputs();
  const { acts } = imported;
  const ofFiles = files.map((event) => ({ type: 'station', at: event.loggedAt, event }) as const);
  const all = opened?.type === 'station' ? [opened, ...ofFiles, ...acts] : [...acts];
  const facts = gather({
    program,
    rules: program.rules,
    zone,
    inputs,
    timeline: all.toSorted((a, b) => arrival(a) - arrival(b)).map((input, index) => ({ seq: index + 1, input })),
    conclusions: [],
    head: { chain: '', seq: all.length, hash: '' },
    document: () => false,
  });
  return renderPdf(pages(facts));
};

const readErrand = async (errand: LogsErrand, program: Program, kept?: Kept): Promise<Read> => {
  const { joint, mapping, events } = errand;
  const logs = errand.logs.map((each) => ({ ...each, own: ownOf(each.own) }));
  const named: (NamedLog & { readonly source: LogSource | Unread })[] = [];
  for (const { name, bytes, own } of logs) {
    named.push({ name, source: await openLog(bytes, { ...mapping, ...own }), own });
  }
  const set = readLogs(named, { ...mapping, probes: joint.probes });
  const { start, offsetMinutes, zone } = clockOfAll(logs.map(({ own }) => ({ ...mapping, ...own }))) ?? mapping;
  const read = events.map(({ text }) => readEvents(text, { joint, start, offsetMinutes, zone }));
  const ofEvents = read.flatMap(({ problems }, index) =>
    problems.map((each) => ({ ...each, message: `${events[index]?.name ?? 'acts'}: ${each.message}` })),
  );
  const acts: readonly ActInput[] = read.flatMap(({ acts }) => acts).toSorted((a, b) => a.at - b.at);
  const problems = [...set.problems, ...ofEvents];
  const view: LogsView = {
    files: set.files.map(({ name, log: { scans: _, ...log } }, index) => ({
      name,
      ...log,
      begins: beginningOf(named[index]!.source),
      ...(log.guess === undefined ? {} : { read: logReadOf(log.guess, { ...mapping, ...logs[index]!.own }) }),
    })),
    problems,
    remarks: [...(set.files.length > 1 ? set.remarks : []), ...keptBefore(hashed(logs), kept)],
    probes: joint.probes.map(({ id }) => id),
  };
  const isUnfit =
    problems.length > 0 || set.files.some(({ log }) => log.problems.length > 0) || set.firstAt === undefined;
  if (isUnfit) return { view, files: [] };
  const imported: Imported = {
    joint,
    logs: set,
    acts,
    isDated: start !== undefined,
    rules: program.rules,
    station: 'page of logs',
    openedBy: 'imported',
  };
  const texts = events.flatMap(({ name, text }) =>
    name === undefined ? [] : [{ name, bytes: new TextEncoder().encode(text) }],
  );
  return { view, imported, files: importedFiles(imported, mapping, logs, texts) };
};

/** An offset that was said of one file goes before the zone that was said of all. */
const ownOf = (own: LogSaid = {}): LogSaid =>
  own.offsetMinutes !== undefined && own.zone === undefined ? { ...own, zone: undefined } : own;

/** Acts are told by the clock of the logs, where they have one in common. */
const clockOfAll = (said: readonly LogSaid[]): LogSaid | undefined => {
  const [first, ...others] = said;
  const isSame = others.every(
    (each) => each.zone === first?.zone && each.offsetMinutes === first?.offsetMinutes && each.start === first?.start,
  );
  return isSame ? first : undefined;
};

/** The first lines with anything in them. */
const beginningOf = (source: LogSource | Unread): LogsView['files'][number]['begins'] => {
  if ('problem' in source) return [];
  const lines: { line: number; text: string }[] = [];
  for (const item of source.records(source.delimiters[0]!)) {
    if (lines.length === linesShown || 'problem' in item) break;
    const text = item.fields.filter((field) => field !== '').join(' | ');
    if (text !== '') lines.push({ line: item.line, text: text.slice(0, 200) });
  }
  return lines;
};
const linesShown = 12;

const hashed = (logs: readonly NamedBytes[]) => logs.map(({ name, bytes }) => ({ name, sha256: sha256Hex(bytes) }));

/** The same file makes another record if somebody wants it so; that it has one is said. */
export const keptBefore = (
  files: readonly Pick<ImportedFile, 'name' | 'sha256'>[],
  kept: Kept | undefined,
): { readonly message: string }[] => {
  const all: readonly KeptImport[] = kept?.importedFiles() ?? [];
  return files.flatMap(({ name, sha256 }) => {
    const earlier = all.filter(({ file }) => file.of === 'log' && file.sha256 === sha256);
    return earlier.map(({ chain, at }) => ({
      message: `${name} is kept already: joint ${chain}, since ${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`,
    }));
  });
};
