/** One row of an imported log to one scan: its time, and a value for every probe of the joint. */
import { limits } from '../measure/limits.ts';
import { readNumber } from '../measure/number-text.ts';
import { type Instant, type MilliCelsius, milliCelsius } from '../measure/quantity.ts';
import { isUsable } from '../measure/thermocouple.ts';
import type { Probe } from '../weld/probe.ts';
import type { Scan, ScanValue } from '../weld/scan.ts';
import type { CsvRecord } from './csv-records.ts';
import type { Columns } from './log-columns.ts';
import type { LogProblem } from './log-problem.ts';
import { readTime, type TimeForm, type TimeOptions } from './log-time.ts';

/** Board that imported scans name. */
export const logBoard = 'log';

/** What one walk tells beside its scans. */
export interface Watcher {
  readonly problem: (problem: LogProblem) => void;
  readonly remark: (remark: LogProblem) => void;
  readonly form: (form: TimeForm) => void;
}

/** Rows to scans, one after another; knows where the time stands. */
export class LogRows {
  timeUnit: Columns['timeUnit'];
  readonly #width: number;
  readonly #columns: Columns;
  readonly #options: TimeOptions;
  readonly #watcher: Watcher;
  #form: TimeForm | undefined;
  #first: Instant | undefined;
  #last: { readonly at: Instant; readonly line: number } | undefined;
  #sequence = 0;
  readonly #words = new Set<string>();

  constructor(width: number, columns: Columns, options: TimeOptions, watcher: Watcher) {
    this.#width = width;
    this.#columns = columns;
    this.#options = options;
    this.#watcher = watcher;
    this.timeUnit = columns.timeUnit;
  }

  scanOf({ fields, line, ended }: CsvRecord): Scan | undefined {
    const width = fields.length;
    if (fields.every((field) => field === '')) return undefined;
    if (width < this.#width && !ended) {
      this.#watcher.remark({ line, message: 'the file ends in the middle of this row, which was left out' });
      return undefined;
    }
    if (width !== this.#width && !(width === this.#width + 1 && fields[width - 1] === '')) {
      this.#watcher.problem({ line, message: wrongWidth(width, this.#width) });
      return undefined;
    }
    const measuredAt = this.#timeOf(fields[this.#columns.timeIndex] ?? '', line);
    if (measuredAt === undefined) return undefined;
    this.#first ??= measuredAt;
    const scan: Scan = {
      board: logBoard,
      boot: 1,
      sequence: this.#sequence,
      ticks: measuredAt - this.#first,
      measuredAt,
      arrivedAt: measuredAt,
      late: false,
      inputs: 0,
      values: this.#columns.probes.map(({ probe, index, header }) =>
        this.#valueOf(probe, fields[index] ?? '', line, header),
      ),
    };
    this.#sequence += 1;
    return scan;
  }

  #timeOf(text: string, line: number): Instant | undefined {
    const { start, offsetMinutes } = this.#options;
    const read = readTime(text, { start, offsetMinutes, unit: this.timeUnit });
    if (!read.ok) {
      this.#watcher.problem({ line, message: read.problem });
      return undefined;
    }
    if (this.#form === undefined) {
      this.#form = read.form;
      this.#watcher.form(read.form);
    }
    if (read.form !== this.#form) {
      this.#watcher.problem({ line, message: `the time "${text}" is written in another form than on the first row` });
      return undefined;
    }
    const last = this.#last;
    if (last !== undefined && read.at <= last.at) {
      const how = read.at === last.at ? 'is the same as' : 'is earlier than';
      this.#watcher.problem({
        line,
        message: `the time "${text}" ${how} that of line ${last.line}; rows must go forward in time`,
      });
      return undefined;
    }
    this.#last = { at: read.at, line };
    return read.at;
  }

  #valueOf({ id, thermocouple }: Probe, cell: string, line: number, column: string): ScanValue {
    if (cell === '') return { probe: id, quality: 'no reading', raw: { form: 'none' } };
    const raw = { form: 'text', text: cell.slice(0, limits.nameMaximum) } as const;
    const number = readNumber(cell);
    if (number.kind === 'not a number') {
      this.#remarkWord(raw.text, line, column);
    }
    if (number.kind !== 'number') return { probe: id, quality: 'no reading', raw };
    if (!isUsable(thermocouple, number.value)) return { probe: id, quality: 'out of range', raw };
    return { probe: id, quality: 'good', temperature: (milliCelsius(number.value) + 0) as MilliCelsius, raw };
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

const wrongWidth = (found: number, expected: number): string =>
  found > expected
    ? `this row has ${found} fields and the header ${expected}; where numbers have a decimal comma, part the columns by semicolon or tab`
    : `this row has ${found} fields and the header ${expected}`;
