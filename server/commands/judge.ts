/** `judge JOINT.json LOG...`: the same fold as a live station, over imported logs. */
import { readFile, stat, writeFile } from 'node:fs/promises';
import { importedReport } from '../errands/logs.ts';
import type { Assessment } from '../judgement/assessment.ts';
import { judgeAll } from '../judgement/judge.ts';
import { limits } from '../measure/limits.ts';
import { type Program, readProgram } from '../program.ts';
import type { Joint } from '../weld/joint.ts';
import { type ActInput, eventsFileHelp, readEvents } from '../wire/events-file.ts';
import { type Imported, importedInputs } from '../wire/imported-inputs.ts';
import type { LogMapping } from '../wire/log-file.ts';
import type { LogProblem } from '../wire/log-problem.ts';
import { type LogSet, type NamedLog, readLogs } from '../wire/log-set.ts';
import { elapsedEpoch } from '../wire/log-time.ts';
import { openLog } from '../wire/workbook-source.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { readJointFile } from './joint-file.ts';
import { judgeAnswer, judgeText, timeOut } from './judge-answer.ts';
import { logMappingOf, logOptions, logOptionsHelp, optionHint, tooManyLogs } from './log-options.ts';

const help = `judge JOINT.json LOG... [--events EVENTS.csv] [--report OUT.pdf] [--json]

Judges recorded logs by the same rules as a live station. Several logs of one job are joined in order of time.

LOG: a table, one row a time: text with comma, semicolon or tab in any usual encoding, or a workbook (.xlsx). Lines above the header and rows
of units are passed over and told. Empty, - or NaN is no reading. Each column but the time is a probe of the joint: by
its header, or as --column says. What can be read in two ways is asked for by name and never guessed:

${logOptionsHelp}

  --events EVENTS.csv     what was done: heat, passes, contact readings. Without it passes and soak are not judged
  --report OUT.pdf        also write the report
  --json                  the answer as JSON. Times are elapsed seconds or UTC, as the log has them
  --help                  this page

Exit status: 0 complies, 1 does not comply, 2 cannot be judged, 3 bad input.

${eventsFileHelp}`;

const options = {
  ...logOptions,
  events: { type: 'string' },
  report: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export const judge: Command = {
  name: 'judge',
  summary: 'judge imported logs, with or without a file of events',
  help,
  async run(args, terminal) {
    const asked = readArguments(judge, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const { values, positionals } = asked;
    const [jointPath, ...logPaths] = positionals;
    if (jointPath === undefined || logPaths.length === 0) {
      return refuse(judge, 'name one joint file and one log or more', terminal);
    }
    const mapping = tooManyLogs(logPaths.length) ?? logMappingOf(values);
    if (typeof mapping === 'string') return refuse(judge, mapping, terminal);

    const joint = await readJointFile(jointPath, terminal);
    if (joint === undefined) return exitStatus.failed;
    const logs = await readLogFiles(logPaths, { ...mapping, probes: joint.probes }, terminal);
    if (logs === undefined) return exitStatus.failed;
    const acts = await readActs(values.events, { ...mapping, joint }, terminal);
    if (acts === undefined) return exitStatus.failed;

    const program = readProgram();
    const isDated = mapping.start !== undefined;
    const imported = {
      joint,
      logs,
      acts,
      isDated,
      rules: program.rules,
      station: 'command line',
      openedBy: 'imported',
    };
    const { assessment } = judgeAll({ [Symbol.iterator]: () => importedInputs(imported)[Symbol.iterator]() });
    if (values.report !== undefined && !(await report(values.report, imported, program, terminal)))
      return exitStatus.failed;

    const time = timeOut(logs.timeForm === 'elapsed' ? 'elapsed' : 'dated', mapping.start ?? elapsedEpoch);
    const withEvents = values.events !== undefined;
    terminal.out(
      values.json === true
        ? JSON.stringify(judgeAnswer(assessment, time, withEvents), null, 2)
        : judgeText(assessment, time, withEvents),
    );
    return statusOf(assessment);
  },
};

const statusOf = ({ verdict }: Assessment): number =>
  verdict === 'complies'
    ? exitStatus.done
    : verdict === 'does-not-comply'
      ? exitStatus.doesNotComply
      : exitStatus.cannotBeJudged;

/** Undefined if there was anything wrong, which is then told. */
async function readLogFiles(
  paths: readonly string[],
  mapping: LogMapping,
  terminal: Terminal,
): Promise<LogSet | undefined> {
  const logs: NamedLog[] = [];
  for (const path of paths) {
    const bytes = await readBytes(path, terminal);
    if (bytes === undefined) return undefined;
    logs.push({ name: path, source: await openLog(bytes, mapping) });
  }
  const set = readLogs(logs, mapping);
  let isUnfit = tell(paths.join(', '), set.problems, terminal);
  for (const { name, log } of set.files) {
    if (tell(name, log.problems, terminal)) isUnfit = true;
    else {
      tell(name, log.remarks, terminal);
      for (const each of log.skipped) terminal.err(`${name}: passed over: ${lineText(each)}`);
    }
  }
  tell(paths.join(', '), set.files.length > 1 ? set.remarks : [], terminal);
  return isUnfit || set.firstAt === undefined ? undefined : set;
}

async function readActs(
  path: string | undefined,
  read: Omit<LogMapping, 'probes'> & { readonly joint: Joint },
  terminal: Terminal,
): Promise<readonly ActInput[] | undefined> {
  if (path === undefined) return [];
  const bytes = await readBytes(path, terminal);
  if (bytes === undefined) return undefined;
  const { acts, problems } = readEvents(bytes, read);
  return tell(path, problems, terminal) ? undefined : acts;
}

async function report(path: string, imported: Imported, program: Program, terminal: Terminal): Promise<boolean> {
  try {
    await writeFile(path, await importedReport(imported, program, 'UTC'));
    return true;
  } catch (cause) {
    terminal.err(`judge: the report could not be written to ${path}: ${(cause as Error).message}`);
    return false;
  }
}

async function readBytes(path: string, terminal: Terminal): Promise<Uint8Array | undefined> {
  try {
    const { size } = await stat(path);
    if (size > limits.logMaximum) {
      terminal.err(`${path}: ${size} bytes; at most ${limits.logMaximum} are read. Cut it into parts.`);
      return undefined;
    }
    return await readFile(path);
  } catch (cause) {
    terminal.err(`${path}: cannot be read: ${(cause as Error).message}`);
    return undefined;
  }
}

/** True if there was anything to tell. */
function tell(path: string, problems: readonly LogProblem[], terminal: Terminal): boolean {
  for (const problem of problems) terminal.err(`${path}: ${lineText(problem)}${optionHint(problem)}`);
  return problems.length > 0;
}

const lineText = ({ line, column, message }: LogProblem): string =>
  `${line === undefined ? '' : `line ${line}: `}${column === undefined ? '' : `${column}: `}${message}`;
