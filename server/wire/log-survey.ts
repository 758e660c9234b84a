/** One walk over the rows of a log that tells what it holds, what is wrong with it and what was read past. */
import { limits } from '../measure/limits.ts';
import type { Instant, Milliseconds } from '../measure/quantity.ts';
import type { Scan } from '../weld/scan.ts';
import type { Log } from './log-file.ts';
import { type LogProblem, Problems } from './log-problem.ts';
import { LogRows, type Watcher } from './log-rows.ts';
import { rowsBelow, type Shape } from './log-shape.ts';
import { unitName } from './log-units.ts';

export const survey = (shape: Shape): Omit<Log, 'guess'> => {
  const problems = new Problems();
  const remarks = new Problems();
  const skipped = new Problems(limits.logSkippedMaximum);
  tellAbove(shape, remarks, skipped);
  const watcher: Watcher = {
    problem: (each) => problems.add(each),
    remark: (each) => remarks.add(each),
    skipped: (each) => skipped.add(each),
  };
  const steps = new Steps();
  const walk = walkOf(shape, watcher);
  let first: Instant | undefined;
  let rows = 0;
  for (const { scan, line } of walk.rows) {
    first ??= scan.measuredAt;
    steps.add(scan.measuredAt, line);
    rows += 1;
  }
  if (rows === 0 && problems.isEmpty) problems.add({ message: 'the log has a header and no rows of readings' });
  if (rows === 1 && problems.isEmpty && shape.mapping.isGrowing !== true) {
    problems.add({ message: 'the log has one row; its period cannot be told from fewer than two' });
  }
  const period = steps.median();
  for (const gap of steps.gaps()) remarks.add(gap);
  const form = walk.timeline.form;
  return {
    scans: { [Symbol.iterator]: () => scansOf(walkOf(shape, silent).rows) },
    problems: problems.list(),
    remarks: remarks.list(),
    // Those below the last reading are known last of all, and the bound is kept by the list.
    skipped: skipped
      .list()
      .toSorted((a, b) => (a.line ?? Number.MAX_SAFE_INTEGER) - (b.line ?? Number.MAX_SAFE_INTEGER)),
    rows,
    ...(period === undefined ? {} : { periodMilliseconds: period as Milliseconds }),
    ...(first === undefined ? {} : { firstAt: first, lastAt: steps.last as Instant }),
    ...(form === undefined ? {} : { timeForm: form }),
  };
};

const silent: Watcher = { problem: () => {}, remark: () => {}, skipped: () => {} };

/** What the header says, and the lines around it that are no readings. */
const tellAbove = ({ source, layout, columns, mapping }: Shape, remarks: Problems, skipped: Problems): void => {
  if (source.encoding === 'windows-1252') {
    remarks.add({ message: 'the log is not UTF-8; it was read as Windows-1252' });
  }
  for (const message of source.remarks ?? []) remarks.add({ message });
  if (columns.leftOut.length > 0) {
    remarks.add({ line: layout.headerLine, message: `left out: ${columns.leftOut.join(', ')}` });
  }
  const other = columns.probes.find(({ unit }) => unit !== 'C');
  if (other !== undefined) {
    const unit = unitName[other.unit];
    remarks.add({ line: layout.headerLine, column: other.header, message: `${unit}, turned into degrees Celsius` });
  }
  if (columns.dateIndex !== undefined && mapping.dateColumn === undefined) {
    remarks.add({
      line: layout.headerLine,
      message: `the date is read from "${layout.header[columns.dateIndex]}" and the time from "${layout.header[columns.timeIndex]}"`,
    });
  }
  for (const { line, fields } of layout.preamble) {
    skipped.add({
      line,
      message: `above the header: ${fields
        .filter((field) => field !== '')
        .join(' ')
        .slice(0, 80)}`,
    });
  }
  if (layout.units !== undefined) skipped.add({ line: layout.units.line, message: 'a row of units' });
  for (const { line } of layout.between) skipped.add({ line, message: 'a row of words between header and readings' });
};

interface Row {
  readonly scan: Scan;
  readonly line: number;
}

const walkOf = (shape: Shape, watcher: Watcher) => {
  const { source, layout, columns, mapping, reading } = shape;
  const { start, offsetMinutes, zone, day } = mapping;
  const { from1904 } = source;
  const options = { start, offsetMinutes, zone, day, from1904, ...reading.time, decimal: reading.decimal };
  const rows = new LogRows(layout.header.length, columns, options, watcher);
  return { rows: rowsOf(shape, rows, watcher), timeline: rows.timeline };
};

function* scansOf(rows: Iterable<Row>): Generator<Scan> {
  for (const { scan } of rows) yield scan;
}

/** What is no reading may stand below the last one, as a logger's closing words; between readings it is a problem. */
function* rowsOf({ source, layout, mapping }: Shape, rows: LogRows, watcher: Watcher): Generator<Row> {
  let waiting: LogProblem[] = [];
  let hasReading = false;
  const flush = (): void => {
    for (const each of waiting) tellUnread(each, mapping.leaveOutRows === true, watcher);
    waiting = [];
  };
  for (const item of rowsBelow(source, layout)) {
    if ('problem' in item) {
      flush();
      watcher.problem({ line: item.line, message: item.problem });
      continue;
    }
    const read = rows.read(item);
    if (read === undefined) continue;
    if ('skipped' in read) watcher.skipped(read.skipped);
    else if ('scan' in read) {
      flush();
      hasReading = true;
      yield read;
    } else {
      if (read.isReading || waiting.length >= closingLinesMaximum) flush();
      if (read.isReading) tellUnread(read.problem, mapping.leaveOutRows === true, watcher);
      else waiting.push(read.problem);
    }
  }
  if (!hasReading) flush();
  for (const { line } of waiting) {
    watcher.skipped({
      ...(line === undefined ? {} : { line }),
      message: 'below the last reading, and no reading itself',
    });
  }
}

/** A logger closes with a few lines; more are something else. */
const closingLinesMaximum = 40;

const tellUnread = (problem: LogProblem, isLeftOut: boolean, watcher: Watcher): void => {
  if (isLeftOut && problem.line !== undefined && (problem.question?.asks ?? 'leaveOutRows') === 'leaveOutRows') {
    watcher.skipped({ line: problem.line, message: `left out as asked: ${problem.message}` });
  } else if (problem.question === undefined) watcher.problem({ ...problem, question: { asks: 'leaveOutRows' } });
  else watcher.problem(problem);
};

/** Steps of time between rows: the one in the middle, and those that are much longer. */
class Steps {
  last: Instant | undefined;
  #lastLine = 0;
  readonly #counts = new Map<number, number>();
  #long: { readonly step: number; readonly from: number; readonly to: number }[] = [];

  add(at: Instant, line: number): void {
    if (this.last !== undefined) {
      const step = at - this.last;
      this.#count(step);
      this.#long.push({ step, from: this.#lastLine, to: line });
      if (this.#long.length > 2 * longStepsKept) this.#keepLongest();
    }
    this.last = at;
    this.#lastLine = line;
  }

  median(): number | undefined {
    const total = [...this.#counts.values()].reduce((sum, count) => sum + count, 0);
    let seen = 0;
    for (const [step, count] of [...this.#counts].toSorted(([a], [b]) => a - b)) {
      seen += count;
      if (seen * 2 >= total) return step;
    }
    return undefined;
  }

  gaps(): readonly LogProblem[] {
    const usual = this.median() ?? Number.POSITIVE_INFINITY;
    this.#keepLongest();
    return this.#long
      .filter(({ step }) => step > gapPeriods * usual)
      .toSorted((a, b) => a.from - b.from)
      .map(({ step, from, to }) => ({
        line: to,
        message: `nothing was logged for ${Math.round(step / 1000)} s before this row, since line ${from}`,
      }));
  }

  /** Distinct steps are few in a real log; one that has more than the bound is measured by those seen first. */
  #count(step: number): void {
    const count = this.#counts.get(step);
    if (count !== undefined || this.#counts.size < limits.logStepsMaximum) this.#counts.set(step, (count ?? 0) + 1);
  }

  #keepLongest(): void {
    this.#long = this.#long.toSorted((a, b) => b.step - a.step).slice(0, longStepsKept);
  }
}

/** A step this many times the usual one is a gap worth telling; what a gap means is for the judge. Own choice. */
const gapPeriods = 3;
const longStepsKept = 50;
