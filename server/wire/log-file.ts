/**
 * An imported log (delimited text, one row a scan) to scans. The file is read twice: once to see what it
 * is and what is wrong with it, and again for each walk over its scans, which are made one by one, so that
 * a long log needs no more memory than its bytes.
 *
 * Nothing is made up: an empty cell, a dash or NaN is 'no reading'; a number outside the usable range of
 * the thermocouple type is 'out of range'; a word is 'no reading' and is remarked; the text of every cell
 * is kept. A row whose time does not go forward is left out and is a problem.
 */
import { limits } from '../measure/limits.ts';
import type { Instant, Milliseconds } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import { type CsvItem, csvRecords, type Delimiter, delimiterOf, encodingOf } from './csv-records.ts';
import { type ColumnMapping, columnsOf, unitsRow } from './log-columns.ts';
import { type LogProblem, Problems } from './log-problem.ts';
import { LogRows, type Watcher } from './log-rows.ts';
import type { TimeForm, TimeOptions } from './log-time.ts';

export interface LogMapping extends ColumnMapping, Pick<TimeOptions, 'start' | 'offsetMinutes'> {
  /** Absent: found out from the header. */
  readonly delimiter?: Delimiter | undefined;
}

export interface Log {
  /** The scans in order of time. Each walk reads the file's bytes again; none is kept. */
  readonly scans: Iterable<Scan>;
  /** What makes the log unfit as it stands. At most 100, then a count. */
  readonly problems: readonly LogProblem[];
  /** What is worth telling and spoils nothing. */
  readonly remarks: readonly LogProblem[];
  readonly rows: number;
  /** Median step between two rows; absent with fewer than two rows. */
  readonly periodMilliseconds?: Milliseconds;
  readonly firstAt?: Instant;
  readonly lastAt?: Instant;
  /** How the time column is written; absent if it cannot be read. */
  readonly timeForm?: TimeForm;
}

export const readLog = (source: string | Uint8Array, mapping: LogMapping): Log => {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  const shape = shapeOf(bytes, mapping);
  if ('problems' in shape) return { scans: [], problems: shape.problems, remarks: [], rows: 0 };
  return survey(shape);
};

interface Shape {
  readonly bytes: Uint8Array;
  readonly delimiter: Delimiter;
  readonly encoding: string;
  readonly mapping: LogMapping;
}

const shapeOf = (bytes: Uint8Array, mapping: LogMapping): Shape | { readonly problems: readonly LogProblem[] } => {
  const problem = (message: string) => ({ problems: [{ message }] });
  if (bytes.length === 0) return problem('the log is empty');
  if (bytes.length > limits.logMaximum) {
    return problem(`the log has ${bytes.length} bytes; at most ${limits.logMaximum} are read, so cut it into parts`);
  }
  const encoding = encodingOf(bytes);
  if (encoding === 'utf-16') return problem('the log is written in UTF-16; save it as UTF-8');
  const delimiter = mapping.delimiter ?? delimiterOf(bytes, encoding);
  if (delimiter === undefined) {
    return problem('the first line is not a header: column names parted by comma, semicolon or tab are needed');
  }
  return { bytes, delimiter, encoding, mapping };
};

const survey = (shape: Shape): Log => {
  const problems = new Problems();
  const remarks = new Problems();
  const steps = new Map<number, number>();
  let timeForm: TimeForm | undefined;
  let first: Instant | undefined;
  let last: Instant | undefined;
  let rows = 0;
  const watcher: Watcher = {
    problem: (each) => problems.add(each),
    remark: (each) => remarks.add(each),
    form: (form) => {
      timeForm = form;
    },
  };
  for (const { measuredAt } of walk(shape, watcher)) {
    if (last !== undefined) countStep(steps, measuredAt - last);
    first ??= measuredAt;
    last = measuredAt;
    rows += 1;
  }
  if (rows === 0 && problems.isEmpty) problems.add({ message: 'the log has a header and no rows of readings' });
  if (rows === 1 && problems.isEmpty) {
    problems.add({ message: 'the log has one row; its period cannot be told from fewer than two' });
  }
  if (shape.encoding !== 'utf-8') remarks.add({ message: 'the log is not UTF-8; it was read as Windows-1252' });
  const period = median(steps);
  return {
    scans: { [Symbol.iterator]: () => walk(shape, silent) },
    problems: problems.list(),
    remarks: remarks.list(),
    rows,
    ...(period === undefined ? {} : { periodMilliseconds: period as Milliseconds }),
    ...(first === undefined ? {} : { firstAt: first }),
    ...(last === undefined ? {} : { lastAt: last }),
    ...(timeForm === undefined ? {} : { timeForm }),
  };
};

const silent: Watcher = { problem: () => {}, remark: () => {}, form: () => {} };

function* walk({ bytes, delimiter, encoding, mapping }: Shape, watcher: Watcher): Generator<Scan> {
  const records = csvRecords(bytes, delimiter, encoding);
  const header = records.next().value as CsvItem | undefined;
  if (header === undefined) return;
  if ('problem' in header) return watcher.problem({ line: header.line, message: header.problem });
  const { columns, problems } = columnsOf(header.fields, header.line, mapping);
  for (const problem of problems) watcher.problem(problem);
  if (columns.leftOut.length > 0) {
    watcher.remark({ line: header.line, message: `left out: ${columns.leftOut.join(', ')}` });
  }
  // Without every probe in its column the rows say nothing that may be judged.
  if (problems.length > 0) return;

  const rows = new LogRows(header.fields.length, columns, mapping, watcher);
  let isFirst = true;
  for (const item of records) {
    if ('problem' in item) {
      watcher.problem({ line: item.line, message: item.problem });
      continue;
    }
    const units = isFirst ? unitsRow(item.fields, columns, item.line) : undefined;
    isFirst = false;
    if (units !== undefined) {
      for (const problem of units.problems) watcher.problem(problem);
      if (units.problems.length > 0) return;
      watcher.remark({ line: item.line, message: 'a row of units, passed over' });
      rows.timeUnit = units.timeUnit ?? rows.timeUnit;
      continue;
    }
    const scan = rows.scanOf(item);
    if (scan !== undefined) yield scan;
  }
}

/** Distinct steps are few in a real log; one that has more than the bound is measured by those seen first. */
const countStep = (steps: Map<number, number>, step: number): void => {
  const count = steps.get(step);
  if (count !== undefined || steps.size < limits.logStepsMaximum) steps.set(step, (count ?? 0) + 1);
};

const median = (steps: ReadonlyMap<number, number>): number | undefined => {
  const total = [...steps.values()].reduce((sum, count) => sum + count, 0);
  let seen = 0;
  for (const [step, count] of [...steps].toSorted(([a], [b]) => a - b)) {
    seen += count;
    if (seen * 2 >= total) return step;
  }
  return undefined;
};
