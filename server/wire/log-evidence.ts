/**
 * What a walk over all rows says of how times and numbers are written. A reading that some row rules out is out; where more
 * than one is left the person is asked. Nothing here is likely or unlikely: only what cannot be is ruled out.
 */
import { isUsable } from '../measure/thermocouple.ts';
import type { CsvItem } from './csv-records.ts';
import type { Columns } from './log-columns.ts';
import { type DateOrder, readDate, readTimeOfDay } from './log-date.ts';
import { isReading } from './log-layout.ts';
import { type DecimalMark, NumberEvidence, readCell } from './log-numbers.ts';
import type { LogProblem } from './log-problem.ts';
import { type ClockForm, clockForm, type NumberedTime, type TimeOptions } from './log-time.ts';
import { toCelsius } from './log-units.ts';

export interface Reading {
  readonly decimal: DecimalMark;
  readonly time: Pick<TimeOptions, 'order' | 'numbers' | 'clock'>;
}

export type StatedReading = Pick<TimeOptions, 'order' | 'numbers' | 'clock'> & {
  readonly decimal?: DecimalMark | undefined;
};

export const readingOf = (
  rows: Iterable<CsvItem>,
  columns: Columns,
  timeHeader: string,
  stated: StatedReading,
  width: number,
): { readonly reading: Reading; readonly problems: readonly LogProblem[] } => {
  const times = new TimeEvidence();
  const numbers = new NumberEvidence();
  for (const item of rows) {
    if ('problem' in item || (item.fields.length < width && !isReading(item.fields))) continue;
    const time = timeText(item.fields, columns);
    times.observe(time, item.line);
    // Two parts of a date are no evidence of decimals.
    if (readDate(time) === undefined) numbers.observe(time, item.line, () => true);
    for (const { probe, index, unit } of columns.probes) {
      numbers.observe(item.fields[index] ?? '', item.line, (value) =>
        isUsable(probe.thermocouple, toCelsius(value, unit)),
      );
    }
  }
  const problems: LogProblem[] = [];
  const decided = stated.decimal ?? numbers.decide() ?? '.';
  const decimal = typeof decided === 'string' ? decided : '.';
  if (typeof decided !== 'string') problems.push(decided);
  const time = times.decide(timeHeader, columns.timeUnit !== undefined, stated);
  problems.push(...time.problems);
  return { reading: { decimal, time: time.form }, problems };
};

/** The date and the time of a row as one text. */
export const timeText = (fields: readonly string[], { timeIndex, dateIndex }: Columns): string => {
  const time = fields[timeIndex] ?? '';
  const date = dateIndex === undefined ? '' : (fields[dateIndex] ?? '');
  // A workbook may keep the whole instant in the cell of which it shows the time only.
  if (date !== '' && readDate(time)?.hasTime === true) return time;
  return (date === '' ? time : `${date} ${time}`).trim().replaceAll(/\s+/g, ' ');
};

class TimeEvidence {
  #orders: ReadonlySet<DateOrder> | undefined;
  readonly #ruledOutAt = new Map<DateOrder, number>();
  #twofoldLine = 0;
  #numbers: { readonly first: number; readonly line: number; last: number; step: number } | undefined;
  #clock:
    | { readonly first: number; readonly line: number; last: number; fellBack: boolean; beyondDay: boolean }
    | undefined;

  observe(text: string, line: number): void {
    const date = readDate(text);
    if (date !== undefined) this.#date(date.orders, new Set(date.readings.map(([order]) => order)), line);
    else if (clockForm.test(text)) this.#time(text, line);
    else {
      const number = readCell(text, text.includes('.') ? '.' : ',');
      if (number.kind === 'number') this.#number(number.value, line);
    }
  }

  decide(
    header: string,
    hasUnit: boolean,
    stated: StatedReading,
  ): { readonly form: Reading['time']; readonly problems: readonly LogProblem[] } {
    const problems: LogProblem[] = [];
    const order = stated.order ?? this.#order(problems);
    const numbers = stated.numbers ?? this.#counted(hasUnit, problems);
    const clock = stated.clock ?? this.#clockForm(header, problems);
    return { form: { order, numbers, clock }, problems };
  }

  #date(orders: readonly DateOrder[], possible: ReadonlySet<DateOrder>, line: number): void {
    // One that no calendar has is told with its row.
    if (possible.size === 0) return;
    this.#orders ??= new Set(orders);
    if (possible.size > 1 && this.#twofoldLine === 0) this.#twofoldLine = line;
    for (const order of this.#orders)
      if (!possible.has(order) && !this.#ruledOutAt.has(order)) this.#ruledOutAt.set(order, line);
    this.#orders = new Set([...this.#orders].filter((order) => possible.has(order)));
  }

  #order(problems: LogProblem[]): DateOrder | undefined {
    const left = [...(this.#orders ?? [])];
    if (this.#orders === undefined || left.length === 1) return left[0];
    if (left.length > 1) {
      problems.push({
        line: this.#twofoldLine,
        message: `all dates of this file can be read as ${left.join(' or as ')}; say in which order they are written`,
        question: { asks: 'order', choices: left },
      });
      return undefined;
    }
    const lines = [...this.#ruledOutAt].map(([order, line]) => `line ${line} is not ${order}`);
    problems.push({ message: `the dates of this file are not written in one order: ${lines.join(', ')}` });
    return undefined;
  }

  #number(value: number, line: number): void {
    const known = this.#numbers;
    if (known === undefined) {
      this.#numbers = { first: value, line, last: value, step: Number.POSITIVE_INFINITY };
      return;
    }
    const step = value - known.last;
    if (step > 0) known.step = Math.min(known.step, step);
    known.last = value;
  }

  /**
   * As elapsed time a count since 1970 would be longer than thirty years; days of a spreadsheet would come less than ten
   * milliseconds apart, and elapsed seconds, read as days, more than an hour. What lies between is asked for.
   */
  #counted(hasUnit: boolean, problems: LogProblem[]): NumberedTime | undefined {
    if (this.#numbers === undefined) return undefined;
    const { first, step, line } = this.#numbers;
    if (first >= 946_684_800_000 && first < 4_102_444_800_000) return 'unix milliseconds';
    if (first >= 946_684_800 && first < 4_102_444_800 && !hasUnit) return 'unix seconds';
    const isDay2000To2100 = first >= 36_526 && first < 73_050;
    if (!isDay2000To2100 || hasUnit || step >= 1 / 24) return 'elapsed';
    if (step < 0.01) return 'spreadsheet days';
    problems.push({
      line,
      message: `the times of this file can be elapsed seconds or the days of a spreadsheet; say which`,
      question: { asks: 'numbers', choices: ['elapsed', 'spreadsheet days'] },
    });
    return undefined;
  }

  #time(text: string, line: number): void {
    const ofDay = readTimeOfDay(text);
    const parts = text.split(':').length;
    const known = this.#clock;
    if (known === undefined) {
      this.#clock = { first: ofDay ?? 0, line, last: ofDay ?? 0, fellBack: false, beyondDay: ofDay === undefined };
      if (parts === 2) this.#clock.beyondDay = false;
      return;
    }
    if (ofDay === undefined) known.beyondDay = true;
    else {
      if (known.last - ofDay > 12 * 3_600_000) known.fellBack = true;
      known.last = ofDay;
    }
  }

  /** Time that begins at an hour or later may be the clock on the wall; one that falls back to midnight is. */
  #clockForm(header: string, problems: LogProblem[]): ClockForm | undefined {
    if (this.#clock === undefined) return undefined;
    if (/elapsed|dauer|duration|laufzeit|since start/i.test(header)) return 'elapsed';
    if (/uhrzeit|time of day|clock|heure/i.test(header)) return 'time of day';
    const { first, fellBack, beyondDay, line } = this.#clock;
    if (fellBack && !beyondDay) return 'time of day';
    if (beyondDay || first < 3_600_000) return 'elapsed';
    problems.push({
      line,
      message: 'the times of this file can be elapsed time or times of day; say which',
      question: { asks: 'clock', choices: ['elapsed', 'time of day'] },
    });
    return undefined;
  }
}
