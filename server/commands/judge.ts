/** `judge JOINT.json LOG...`: the same fold as a live station, over imported logs. */
import { readFile, stat, writeFile } from 'node:fs/promises';
import { importedFiles, type NamedBytes, wholeJob } from '../errands/keep-logs.ts';
import { importedReport, keptBefore } from '../errands/logs.ts';
import type { Assessment } from '../judgement/assessment.ts';
import { judgeAll } from '../judgement/judge.ts';
import { deviationCounts } from '../judgement/people/deviations.ts';
import { limits } from '../measure/limits.ts';
import { type Program, readProgram } from '../program.ts';
import type { ImportedFile } from '../weld/imported.ts';
import type { Joint } from '../weld/joint.ts';
import { readJoint } from '../weld/read-joint.ts';
import { type ActInput, eventsFileHelp, readEvents } from '../wire/events-file.ts';
import { type Imported, importedInputs } from '../wire/imported-inputs.ts';
import type { LogMapping } from '../wire/log-file.ts';
import type { LogProblem } from '../wire/log-problem.ts';
import { type LogSet, type NamedLog, readLogs } from '../wire/log-set.ts';
import { elapsedEpoch } from '../wire/log-time.ts';
import { openLog } from '../wire/workbook-source.ts';
import { deviationCountText } from '../wording/deviation.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { readJointFile } from './joint-file.ts';
import { judgeAnswer, judgeText, timeOut } from './judge-answer.ts';
import { decisionsOn, type Keeping, keepHelp, keepIn, keepingOf, keepOptions, withRecord } from './keep-logs.ts';
import { logMappingOf, logOptions, logOptionsHelp, optionHint, tooManyLogs } from './log-options.ts';

const help = `judge JOINT.json LOG... [--events EVENTS.csv] [--report OUT.pdf] [--json] [--keep RECORD]

Judges recorded logs by the same rules as a live station. Several logs of one job are joined in order of time.

LOG: a table, one row a time: text with comma, semicolon or tab in any usual encoding, or a workbook (.xlsx). Lines above the header and rows
of units are passed over and told. Empty, - or NaN is no reading. Each column but the time is a probe of the joint: by
its header, or as --column says. What can be read in two ways is asked for by name and never guessed:

${logOptionsHelp}

  --events EVENTS.csv     what was done: heat, passes, contact readings. Without it passes and soak are not judged
  --report OUT.pdf        also write the report
${keepHelp}
  --json                  the answer as JSON. Times are elapsed seconds or UTC, as the log has them
  --help                  this page

Exit status: 0 complies, 1 does not comply, 2 cannot be judged, 3 bad input.

${eventsFileHelp}`;

const options = {
  ...logOptions,
  ...keepOptions,
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
    const keeping = keepingOf(values);
    if (typeof keeping === 'string') return refuse(judge, keeping, terminal);

    const entered = await readJointFile(jointPath, terminal);
    if (entered === undefined) return exitStatus.failed;
    const joint = keeping?.as === undefined ? entered : namedAnew(entered, keeping.as);
    if (typeof joint === 'string') return refuse(judge, joint, terminal);
    const logs = await readLogFiles(logPaths, { ...mapping, probes: joint.probes }, terminal);
    if (logs === undefined) return exitStatus.failed;
    const events = await readActs(values.events, { ...mapping, joint }, terminal);
    if (events === undefined) return exitStatus.failed;

    const program = readProgram();
    const isDated = mapping.start !== undefined;
    const imported = {
      joint,
      logs: logs.set,
      acts: events.acts,
      isDated,
      rules: program.rules,
      station: 'command line',
      openedBy: 'imported',
    };
    const files = importedFiles(imported, mapping, logs.files, events.files);
    const assessment = judged(imported, files, keeping, program, terminal);
    if (assessment === undefined) return exitStatus.failed;
    if (values.report !== undefined && !(await report(values.report, { imported, files }, program, terminal)))
      return exitStatus.failed;

    const time = timeOut(logs.set.timeForm === 'elapsed' ? 'elapsed' : 'dated', mapping.start ?? elapsedEpoch);
    const withEvents = values.events !== undefined;
    terminal.out(
      values.json === true
        ? JSON.stringify(judgeAnswer(assessment, time, withEvents), null, 2)
        : judgeText(assessment, time, withEvents),
    );
    return statusOf(assessment);
  },
};

/** Kept first where it is to be kept: nothing is told of a record that there is none of. Undefined if it could not be. */
function judged(
  imported: Imported,
  files: readonly ImportedFile[],
  keeping: Keeping | undefined,
  program: Program,
  terminal: Terminal,
): Assessment | undefined {
  const open = (): Assessment =>
    judgeAll({ [Symbol.iterator]: () => importedInputs(imported)[Symbol.iterator]() }).assessment;
  if (keeping === undefined) return open();
  const decisions = keeping.decided.length === 0 ? [] : decisionsOn(open(), keeping.decided);
  if (typeof decisions === 'string') {
    terminal.err(`judge: not kept: ${decisions}`);
    return undefined;
  }
  const { job, assessment } = wholeJob(imported, files, keeping.keeper, decisions);
  const wrong = withRecord(keeping, program, (record) => {
    for (const { message } of keptBefore(files, record)) terminal.err(message);
    return keepIn(record, job, keeping.keeper);
  });
  if (wrong !== undefined) terminal.err(`judge: not kept: ${wrong}`);
  else {
    const left = deviationCountText(deviationCounts(assessment.findings));
    terminal.err(
      `Kept in ${keeping.folder} as joint ${job.chain}, imported and closed.${left === '' ? '' : ` Deviations: ${left}.`}`,
    );
  }
  return wrong === undefined ? assessment : undefined;
}

function namedAnew(joint: Joint, id: string): Joint | string {
  const read = readJoint({ ...joint, id });
  return 'problems' in read
    ? `--keep-as: ${read.problems.map(({ found, allowed }) => `found ${found}; allowed is ${allowed}`).join('; ')}`
    : read.joint;
}

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
): Promise<{ readonly set: LogSet; readonly files: readonly NamedBytes[] } | undefined> {
  const logs: NamedLog[] = [];
  const files: NamedBytes[] = [];
  for (const path of paths) {
    const bytes = await readBytes(path, terminal);
    if (bytes === undefined) return undefined;
    files.push({ name: path, bytes });
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
  return isUnfit || set.firstAt === undefined ? undefined : { set, files };
}

async function readActs(
  path: string | undefined,
  read: Omit<LogMapping, 'probes'> & { readonly joint: Joint },
  terminal: Terminal,
): Promise<{ readonly acts: readonly ActInput[]; readonly files: readonly NamedBytes[] } | undefined> {
  if (path === undefined) return { acts: [], files: [] };
  const bytes = await readBytes(path, terminal);
  if (bytes === undefined) return undefined;
  const { acts, problems } = readEvents(bytes, read);
  return tell(path, problems, terminal) ? undefined : { acts, files: [{ name: path, bytes }] };
}

async function report(
  path: string,
  { imported, files }: { readonly imported: Imported; readonly files: readonly ImportedFile[] },
  program: Program,
  terminal: Terminal,
): Promise<boolean> {
  try {
    await writeFile(path, await importedReport(imported, files, program, 'UTC'));
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
