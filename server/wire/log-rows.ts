/** One row of an imported log to one scan: its time, and a value for every probe of the joint. */
import { limits } from '../measure/limits.ts';
import { type Instant, type MilliCelsius, milliCelsius } from '../measure/quantity.ts';
import { isUsable } from '../measure/thermocouple.ts';
import type { Scan, ScanValue } from '../weld/scan.ts';
import type { CsvRecord } from './csv-records.ts';
import type { Columns, ProbeColumn } from './log-columns.ts';
import { timeText } from './log-evidence.ts';
import { isCounted, isReading } from './log-layout.ts';
import { type DecimalMark, plainOf, readCell } from './log-numbers.ts';
import type { LogProblem } from './log-problem.ts';
import type { TimeOptions } from './log-time.ts';
import { Timeline } from './log-timeline.ts';
import { toCelsius } from './log-units.ts';

/** Board that imported scans name. */
export const logBoard = 'log';

/** What one walk tells beside its scans. */
export interface Watcher {
  readonly problem: (problem: LogProblem) => void;
  readonly remark: (remark: LogProblem) => void;
  /** A line that holds no reading, or one that was asked to be left out. */
  readonly skipped: (line: LogProblem) => void;
}

export interface RowOptions extends TimeOptions {
  readonly decimal: DecimalMark;
}

export type RowRead =
  | { readonly scan: Scan; readonly line: number }
  | { readonly problem: LogProblem; readonly isReading: boolean }
  | { readonly skipped: LogProblem }
  | undefined;

/** Rows to scans, one after another; knows where the time stands. */
export class LogRows {
  readonly #width: number;
  readonly #columns: Columns;
  readonly #decimal: DecimalMark;
  readonly #watcher: Watcher;
  readonly timeline: Timeline;
  #first: Instant | undefined;
  #sequence = 0;
  #lastRow = '';
  readonly #words = new Set<string>();

  constructor(width: number, columns: Columns, options: RowOptions, watcher: Watcher) {
    this.#width = width;
    this.#columns = columns;
    this.#decimal = options.decimal;
    this.#watcher = watcher;
    this.timeline = new Timeline({ ...options, unit: columns.timeUnit }, watcher.remark);
  }

  read({ fields, line, ended }: CsvRecord): RowRead {
    const width = fields.length;
    if (fields.every((field) => field === '')) return undefined;
    if (fields[0]!.startsWith('#')) return { skipped: { line, message: `a remark: ${shown(fields)}` } };
    if (!fields.some(isCounted)) return { skipped: { line, message: `no time and no reading: ${shown(fields)}` } };
    if (width < this.#width && !ended) {
      return { skipped: { line, message: 'the file ends in the middle of this row, which was left out' } };
    }
    const row = fields.join('\t');
    if (row === this.#lastRow) return { skipped: { line, message: 'the same row as the one before, word for word' } };
    if (width !== this.#width && !(width === this.#width + 1 && fields[width - 1] === '')) {
      return { problem: { line, ...wrongWidth(width, this.#width) }, isReading: isReading(fields) };
    }
    const taken = this.timeline.take(this.#timeOf(fields), line);
    if ('problem' in taken) return { problem: taken.problem, isReading: isReading(fields) };
    this.#lastRow = row;
    return { scan: this.#scanOf(taken.at, fields, line), line };
  }

  #timeOf(fields: readonly string[]): string {
    const text = timeText(fields, this.#columns);
    return plainOf(text, this.#decimal) ?? text;
  }

  #scanOf(measuredAt: Instant, fields: readonly string[], line: number): Scan {
    this.#first ??= measuredAt;
    const sequence = this.#sequence;
    this.#sequence += 1;
    return {
      board: logBoard,
      boot: 1,
      sequence,
      ticks: measuredAt - this.#first,
      measuredAt,
      arrivedAt: measuredAt,
      late: false,
      inputs: 0,
      values: this.#columns.probes.map((column) => this.#valueOf(column, fields[column.index] ?? '', line)),
    };
  }

  #valueOf({ probe: { id, thermocouple }, header, unit }: ProbeColumn, cell: string, line: number): ScanValue {
    if (cell === '') return { probe: id, quality: 'no reading', raw: { form: 'none' } };
    const raw = { form: 'text', text: cell.slice(0, limits.nameMaximum) } as const;
    const number = readCell(cell, this.#decimal);
    if (number.kind === 'not a number') this.#remarkWord(raw.text, line, header);
    if (number.kind !== 'number') return { probe: id, quality: 'no reading', raw };
    const celsius = toCelsius(number.value, number.unit ?? unit);
    if (!isUsable(thermocouple, celsius)) return { probe: id, quality: 'out of range', raw };
    return { probe: id, quality: 'good', temperature: (milliCelsius(celsius) + 0) as MilliCelsius, raw };
  }

  /** Once for each word in each column: an instrument may write it on every row. */
  #remarkWord(word: string, line: number, column: string): void {
    const seen = `${column}\n${word}`;
    if (this.#words.has(seen) || this.#words.size >= limits.importProblemsMaximum) return;
    this.#words.add(seen);
    this.#watcher.remark({
      line,
      column,
      message: `"${word}" is not a number and counts as no reading, here and below`,
    });
  }
}

const shown = (fields: readonly string[]): string => {
  const text = fields.filter((field) => field !== '').join(' ');
  return text.length > 80 ? `${text.slice(0, 80)}…` : text;
};

const wrongWidth = (found: number, expected: number): Omit<LogProblem, 'line'> => ({
  message:
    found > expected
      ? `this row has ${found} fields and the header ${expected}; where numbers have a decimal comma, part the columns by semicolon or tab`
      : `this row has ${found} fields and the header ${expected}`,
  question: { asks: 'leaveOutRows' },
});
