/** The errand of judging other people's logs: read as a person says, told how, and judged once nothing has to be asked. */
import { judgeAll } from '../judgement/judge.ts';
import type { Program } from '../program.ts';
import { gather } from '../report/gather.ts';
import { pages } from '../report/pages.ts';
import { renderPdf } from '../report/pdf.ts';
import type { LogsView } from '../screen/logs-view.ts';
import { arrival, type Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { type ActInput, readEvents } from '../wire/events-file.ts';
import { type Imported, importedInputs } from '../wire/imported-inputs.ts';
import type { LogMapping } from '../wire/log-file.ts';
import { type LogSet, type NamedLog, readLogs } from '../wire/log-set.ts';
import { openLog } from '../wire/workbook-source.ts';

/** What a person says of how a log is read. */
export type LogSaid = Omit<LogMapping, 'probes'>;

export interface LogsErrand {
  readonly joint: Joint;
  readonly logs: readonly {
    readonly name: string;
    readonly bytes: Uint8Array;
    /** What holds for this file in place of what holds for all. */
    readonly own?: LogSaid;
  }[];
  readonly mapping: LogSaid;
  readonly events: readonly string[];
}

interface Read {
  readonly set: LogSet;
  readonly view: LogsView;
  /** Absent while something has to be asked or put right. */
  readonly imported?: Imported;
}

export const viewLogs = async (errand: LogsErrand, program: Program): Promise<LogsView> => {
  const { view, imported } = await readErrand(errand, program);
  if (imported === undefined) return view;
  const { assessment } = judgeAll({ [Symbol.iterator]: () => importedInputs(imported)[Symbol.iterator]() });
  return { ...view, assessment };
};

/** Throws with words where the logs cannot be read as they are. */
export const reportLogs = async (errand: LogsErrand, program: Program, zone: string): Promise<Uint8Array> => {
  const { imported } = await readErrand(errand, program);
  if (imported === undefined) throw new Error('the logs cannot be read as they are; answer what is asked first');
  return importedReport(imported, program, zone);
};

/** The report of logs that are in no record: it has no chain and no head, and says "imported" first. */
export const importedReport = (imported: Imported, program: Program, zone: string): Promise<Uint8Array> => {
  const inputs = (): Iterable<Input> => importedInputs(imported);
  const [opened] = inputs();
  const { acts } = imported;
  const all = opened?.type === 'station' ? [opened, ...acts] : [...acts];
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

const readErrand = async ({ joint, logs, mapping, events }: LogsErrand, program: Program): Promise<Read> => {
  const named: NamedLog[] = [];
  for (const { name, bytes, own = {} } of logs) {
    named.push({ name, source: await openLog(bytes, { ...mapping, ...own }), own });
  }
  const set = readLogs(named, { ...mapping, probes: joint.probes });
  const { start, offsetMinutes, zone } = mapping;
  const read = events.map((text) => readEvents(text, { joint, start, offsetMinutes, zone }));
  const ofEvents = read.flatMap(({ problems }, index) =>
    problems.map((each) => ({ ...each, message: `${index === 0 ? 'acts' : 'events file'}: ${each.message}` })),
  );
  const acts: readonly ActInput[] = read.flatMap(({ acts }) => acts).toSorted((a, b) => a.at - b.at);
  const problems = [...set.problems, ...ofEvents];
  const view: LogsView = {
    files: set.files.map(({ name, log: { scans: _, ...log } }) => ({ name, ...log })),
    problems,
    remarks: set.files.length > 1 ? set.remarks : [],
    probes: joint.probes.map(({ id }) => id),
  };
  const isUnfit =
    problems.length > 0 || set.files.some(({ log }) => log.problems.length > 0) || set.firstAt === undefined;
  if (isUnfit) return { set, view };
  const isDated = start !== undefined;
  const imported = {
    joint,
    logs: set,
    acts,
    isDated,
    rules: program.rules,
    station: 'page of logs',
    openedBy: 'imported',
  };
  return { set, view, imported };
};
