/** How a log was read, as it is shown and kept: what was found out, and which of it a person said. */
import type { LogRead } from '../weld/imported.ts';
import type { LogGuess, LogMapping } from './log-shape.ts';

export const logReadOf = (guess: LogGuess, mapping: Omit<LogMapping, 'probes'>): LogRead => {
  const { written, delimiter, headerLine, timeColumn, dateColumn, decimal, time, timeUnit, probes, leftOut } = guess;
  const { zone, offsetMinutes, day, start } = mapping;
  return {
    written,
    delimiter,
    headerLine,
    timeColumn,
    dateColumn,
    decimal,
    ...time,
    timeUnit,
    zone,
    offsetMinutes,
    day: day === undefined ? undefined : new Date(day).toISOString().slice(0, 10),
    start,
    probes,
    leftOut,
    said: Object.entries(saidNames).flatMap(([key, name]) => {
      const value = mapping[key as keyof typeof saidNames];
      return value === undefined || value === false ? [] : [name];
    }),
  };
};

const saidNames = {
  sheet: 'sheet',
  delimiter: 'what parts the columns',
  headerLine: 'line of the column names',
  timeColumn: 'time column',
  dateColumn: 'date column',
  columns: 'which column is which probe',
  leaveOut: 'columns left out',
  unit: 'unit of columns that state none',
  units: 'units of columns',
  timeUnit: 'unit of elapsed time',
  decimal: 'decimal mark',
  order: 'order of dates',
  numbers: 'what numbers of time are',
  clock: 'what times are',
  zone: 'time zone',
  offsetMinutes: 'offset from UTC',
  day: 'day of the beginning',
  start: 'when elapsed time began',
  leaveOutRows: 'rows that cannot be read are left out',
} as const;
