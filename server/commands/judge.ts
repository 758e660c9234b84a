/** `judge JOINT.json LOG.csv`: the same fold as a live station, over an imported log. */
import { readFile, stat, writeFile } from 'node:fs/promises';
import type { Assessment } from '../judgement/assessment.ts';
import { judgeAll } from '../judgement/judge.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { type Program, readProgram } from '../program.ts';
import { gather } from '../report/gather.ts';
import { pages } from '../report/pages.ts';
import { renderPdf } from '../report/pdf.ts';
import { arrival, type Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { type ActInput, eventsFileHelp, readEvents } from '../wire/events-file.ts';
import { type Log, readLog } from '../wire/log-file.ts';
import type { LogProblem } from '../wire/log-problem.ts';
import { elapsedEpoch, offsetMinutesOf } from '../wire/log-time.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { readJointFile } from './joint-file.ts';
import { judgeAnswer, judgeText, timeOut } from './judge-answer.ts';

const help = `judge JOINT.json LOG.csv [--events EVENTS.csv] [--report OUT.pdf] [--json]

Judges a recorded log by the same rules as a live station.

LOG.csv: a header, then one row a time; comma, semicolon or tab; decimal point or comma; empty, - or NaN
is no reading. The time column is a date-time with its offset, or elapsed seconds or h:mm:ss. Each other
column is a probe of the joint: by its header, or as --column says.

  --column HEADER=PROBE   which probe a column is; may be given several times. Columns not named are left out
  --leave-out HEADER      a column that is no probe; may be given several times
  --time-column HEADER    which column holds the time
  --offset +01:00         offset from UTC of date-times that state none
  --start DATE-TIME       when elapsed time began, with its offset, as 2026-11-25T08:00:00+01:00
  --events EVENTS.csv     what was done: heat, passes, contact readings. Without it passes and soak are not judged
  --report OUT.pdf        also write the report
  --json                  the answer as JSON. Times are elapsed seconds or UTC, as the log has them
  --help                  this page

Exit status: 0 complies, 1 does not comply, 2 cannot be judged, 3 bad input.

${eventsFileHelp}`;

const options = {
  column: { type: 'string', multiple: true },
  'leave-out': { type: 'string', multiple: true },
  'time-column': { type: 'string' },
  offset: { type: 'string' },
  start: { type: 'string' },
  events: { type: 'string' },
  report: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export const judge: Command = {
  name: 'judge',
  summary: 'judge an imported log, with or without a file of events',
  help,
  async run(args, terminal) {
    const asked = readArguments(judge, options, args, terminal);
    if (typeof asked === 'number') return asked;
    const { values, positionals } = asked;
    const [jointPath, logPath, ...rest] = positionals;
    if (jointPath === undefined || logPath === undefined || rest.length > 0) {
      return refuse(judge, 'name one joint file and one log', terminal);
    }
    const times = timesOf(values);
    if (typeof times === 'string') return refuse(judge, times, terminal);
    const columns = columnsOf(values.column);
    if (typeof columns === 'string') return refuse(judge, columns, terminal);

    const joint = await readJointFile(jointPath, terminal);
    const logBytes = joint === undefined ? undefined : await readBytes(logPath, terminal);
    if (joint === undefined || logBytes === undefined) return exitStatus.failed;
    const log = readLog(logBytes, {
      probes: joint.probes,
      columns,
      leaveOut: values['leave-out'],
      timeColumn: values['time-column'],
      ...times,
    });
    if (tell(logPath, log.problems, terminal) || log.firstAt === undefined) return exitStatus.failed;
    for (const remark of log.remarks) terminal.err(`${logPath}: ${lineText(remark)}`);

    const acts = await readActs(values.events, { ...times, joint }, terminal);
    if (acts === undefined) return exitStatus.failed;
    const program = readProgram();
    const undated = log.timeForm === 'elapsed' && times.start === undefined;
    const inputs = (): Iterable<Input> => inputsOf(joint, log, acts, logPath, program, undated);
    const { assessment } = judgeAll({ [Symbol.iterator]: () => inputs()[Symbol.iterator]() });
    if (values.report !== undefined && !(await report(values.report, inputs, acts, program, terminal)))
      return exitStatus.failed;

    const time = timeOut(log.timeForm === 'elapsed' ? 'elapsed' : 'dated', times.start ?? elapsedEpoch);
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

/** An elapsed time has to stand on some date on paper; nobody may take it for the day of the job. */
const undatedRemark =
  '; its times are elapsed times, so the dates shown here mean nothing and only durations are right';

/** Opening, then scans and acts by time; of the same instant the reading came first. */
function* inputsOf(
  joint: Joint,
  log: Log,
  acts: readonly ActInput[],
  file: string,
  program: Program,
  undated: boolean,
): Iterable<Input> {
  const firstAct = acts[0]?.at ?? (log.firstAt as Instant);
  const at = Math.min(log.firstAt as Instant, firstAct) as Instant;
  yield {
    type: 'station',
    at,
    event: {
      kind: 'opened',
      joint,
      source: { kind: 'imported', detail: `log ${file.split(/[\\/]/).at(-1)}${undated ? undatedRemark : ''}` },
      periodMilliseconds: log.periodMilliseconds ?? 1000,
      openedBy: 'imported',
      rules: program.rules,
      station: 'command line',
    },
  };
  let next = 0;
  for (const scan of log.scans) {
    for (; next < acts.length && acts[next]!.at < scan.arrivedAt; next++) yield acts[next]!;
    yield { type: 'scan', scan };
  }
  yield* acts.slice(next);
}

async function readActs(
  path: string | undefined,
  read: Times & { readonly joint: Joint },
  terminal: Terminal,
): Promise<readonly ActInput[] | undefined> {
  if (path === undefined) return [];
  const bytes = await readBytes(path, terminal);
  if (bytes === undefined) return undefined;
  const { acts, problems } = readEvents(bytes, read);
  return tell(path, problems, terminal) ? undefined : acts;
}

async function report(
  path: string,
  inputs: () => Iterable<Input>,
  acts: readonly ActInput[],
  program: Program,
  terminal: Terminal,
): Promise<boolean> {
  const [opened] = inputs();
  const all = opened?.type === 'station' ? [opened, ...acts] : [...acts];
  const facts = gather({
    program,
    rules: program.rules,
    zone: 'UTC',
    inputs,
    timeline: all.toSorted((a, b) => arrival(a) - arrival(b)).map((input, index) => ({ seq: index + 1, input })),
    conclusions: [],
    head: { seq: all.length, hash: '' },
    document: () => false,
  });
  try {
    await writeFile(path, await renderPdf(pages(facts)));
    return true;
  } catch (cause) {
    terminal.err(`judge: the report could not be written to ${path}: ${(cause as Error).message}`);
    return false;
  }
}

type Times = { readonly start?: Instant; readonly offsetMinutes?: number };

function timesOf(values: {
  readonly offset?: string | undefined;
  readonly start?: string | undefined;
}): Times | string {
  const offsetMinutes = values.offset === undefined ? undefined : offsetMinutesOf(values.offset);
  if (values.offset !== undefined && offsetMinutes === undefined) return '--offset wants an offset from UTC, as +01:00';
  const start = values.start === undefined ? undefined : Date.parse(values.start);
  if (start !== undefined && (Number.isNaN(start) || !/(Z|[+-]\d{2}:\d{2})$/i.test(values.start ?? ''))) {
    return '--start wants a date-time with its offset, as 2026-11-25T08:00:00+01:00';
  }
  return {
    ...(offsetMinutes === undefined ? {} : { offsetMinutes }),
    ...(start === undefined ? {} : { start: start as Instant }),
  };
}

function columnsOf(given: readonly string[] | undefined): Record<string, string> | undefined | string {
  if (given === undefined) return undefined;
  const columns: Record<string, string> = {};
  for (const each of given) {
    const [header, ...probe] = each.split('=');
    if (!header || probe.length === 0) return `--column wants HEADER=PROBE, found "${each}"`;
    columns[header.trim()] = probe.join('=').trim();
  }
  return columns;
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
  for (const problem of problems) terminal.err(`${path}: ${lineText(problem)}`);
  return problems.length > 0;
}

const lineText = ({ line, column, message }: LogProblem): string =>
  `${line === undefined ? '' : `line ${line}: `}${column === undefined ? '' : `${column}: `}${message}`;
