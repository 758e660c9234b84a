/** How one log is read: found out from it and from what a person said, and told so that it can be put right. */
import type { CsvItem, Delimiter } from './csv-records.ts';
import { type ColumnMapping, type Columns, columnsOf } from './log-columns.ts';
import { type Reading, readingOf, type StatedReading } from './log-evidence.ts';
import type { Layout } from './log-layout.ts';
import type { DecimalMark } from './log-numbers.ts';
import type { LogProblem } from './log-problem.ts';
import type { LogSource } from './log-source.ts';
import { type ElapsedUnit, noZone, type TimeOptions } from './log-time.ts';
import type { TemperatureUnit } from './log-units.ts';
import { zoneClock } from './log-zone.ts';

export interface LogMapping
  extends ColumnMapping,
    Pick<TimeOptions, 'start' | 'offsetMinutes' | 'zone' | 'day'>,
    StatedReading {
  /** Absent: found out from the file. */
  readonly delimiter?: Delimiter | undefined;
  readonly headerLine?: number | undefined;
  /** Of a workbook, where several sheets hold readings. */
  readonly sheet?: string | undefined;
  /** Rows that cannot be read are left out, and listed, instead of making the log unfit. */
  readonly leaveOutRows?: boolean | undefined;
  /** Of a file that is still being written: one row is enough. */
  readonly isGrowing?: boolean | undefined;
}

export interface Shape {
  readonly source: LogSource;
  readonly layout: Layout;
  readonly columns: Columns;
  readonly mapping: LogMapping;
  readonly reading: Reading;
}

/** What is shown of how a log was read. */
export interface LogGuess {
  readonly written: string;
  readonly sheet?: { readonly name: string; readonly choices: readonly string[] };
  readonly delimiter: Delimiter;
  readonly headerLine: number;
  readonly header: readonly string[];
  readonly timeColumn: string;
  readonly dateColumn: string | undefined;
  readonly probes: readonly { readonly probe: string; readonly column: string; readonly unit: TemperatureUnit }[];
  readonly leftOut: readonly string[];
  readonly decimal: DecimalMark;
  readonly time: Reading['time'];
  /** What plain numbers of the time column count, where that is elapsed time. */
  readonly timeUnit?: ElapsedUnit;
}

export const shapeOf = (
  source: LogSource,
  layout: Layout,
  mapping: LogMapping,
): { readonly shape: Shape; readonly guess: LogGuess; readonly problems: readonly LogProblem[] } => {
  const { columns, problems } = columnsOf(layout, mapping);
  const timeColumn = layout.header[columns.timeIndex] ?? '';
  const rows = rowsBelow(source, layout);
  const found = readingOf(rows, columns, timeColumn, mapping, layout.header.length);
  const zone: LogProblem[] =
    mapping.zone === undefined || zoneClock(mapping.zone) !== undefined
      ? []
      : [{ message: noZone(mapping.zone), question: { asks: 'zone' } }];
  return {
    shape: { source, layout, columns, mapping, reading: found.reading },
    guess: {
      written: source.written,
      ...(source.sheet === undefined ? {} : { sheet: source.sheet }),
      delimiter: layout.delimiter,
      headerLine: layout.headerLine,
      header: layout.header,
      timeColumn,
      dateColumn: columns.dateIndex === undefined ? undefined : layout.header[columns.dateIndex],
      probes: columns.probes.map(({ probe, header, unit }) => ({ probe: probe.id, column: header, unit })),
      leftOut: columns.leftOut,
      decimal: found.reading.decimal,
      time: found.reading.time,
      ...(found.reading.time.numbers === 'elapsed' ? { timeUnit: columns.timeUnit ?? 's' } : {}),
    },
    problems: [...problems, ...found.problems, ...zone],
  };
};

/** The records under the header, what stands between it and the readings left out. */
export function* rowsBelow(source: LogSource, layout: Layout): Generator<CsvItem> {
  const passed = new Set([layout.units?.line, ...layout.between.map(({ line }) => line)]);
  for (const item of source.records(layout.delimiter)) {
    if (item.line > layout.headerLine && !passed.has(item.line)) yield item;
  }
}
