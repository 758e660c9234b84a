/** What the command line says of how logs are to be read. */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { type Delimiter, delimiterNames, delimiters } from '../wire/csv-records.ts';
import { dateOrders } from '../wire/log-date.ts';
import type { LogMapping } from '../wire/log-file.ts';
import { decimalMarks } from '../wire/log-numbers.ts';
import type { LogProblem, LogQuestionKind } from '../wire/log-problem.ts';
import { clockForms, elapsedUnits, noZone, numberedTimes, offsetMinutesOf } from '../wire/log-time.ts';
import { temperatureUnits } from '../wire/log-units.ts';
import { zoneClock } from '../wire/log-zone.ts';

export const logOptions = {
  column: { type: 'string', multiple: true },
  'leave-out': { type: 'string', multiple: true },
  'time-column': { type: 'string' },
  'date-column': { type: 'string' },
  'header-line': { type: 'string' },
  delimiter: { type: 'string' },
  sheet: { type: 'string' },
  unit: { type: 'string' },
  'column-unit': { type: 'string', multiple: true },
  'time-unit': { type: 'string' },
  decimal: { type: 'string' },
  order: { type: 'string' },
  numbers: { type: 'string' },
  clock: { type: 'string' },
  day: { type: 'string' },
  zone: { type: 'string' },
  offset: { type: 'string' },
  start: { type: 'string' },
  'leave-out-rows': { type: 'boolean' },
} as const;

export const logOptionsHelp = `  --column HEADER=PROBE   which probe a column is; may be given several times. Columns not named are left out
  --leave-out HEADER      a column that is no probe; may be given several times
  --time-column HEADER    which column holds the time
  --date-column HEADER    which column holds the date, where it stands apart
  --header-line NUMBER    the line of the column names, where it is not found
  --delimiter KIND        what parts the columns, where it is not found: tab, semicolon or comma
  --sheet NAME            of a workbook, where several sheets hold readings
  --unit C|F|K            unit of the columns that state none
  --column-unit HEADER=F  unit of one column, whatever the file says; may be given several times
  --time-unit UNIT        what plain numbers of elapsed time count: ms, s, min or h, whatever the file says
  --decimal "." or ","    the decimal mark, where the numbers can be read in two ways
  --order ORDER           of dates that can be read in two ways: ${dateOrders.map((each) => `"${each}"`).join(', ')}
  --numbers KIND          what plain numbers of the time column are: ${numberedTimes.map((each) => `"${each}"`).join(', ')}
  --clock KIND            what 14:03:22 or 14:03 is: ${clockForms.map((each) => `"${each}"`).join(', ')}
  --day 2026-11-25        the day on which a log of times of day begins
  --zone Europe/Vienna    time zone of date-times that state no offset; knows when clocks change
  --offset +01:00         or their offset from UTC, where the logger's clock never changes
  --start DATE-TIME       when elapsed time began, with its offset, as 2026-11-25T08:00:00+01:00
  --leave-out-rows        leave out rows that cannot be read, and list them, instead of refusing the log`;

type Stated<Option> = Option extends { type: 'boolean' }
  ? boolean
  : Option extends { multiple: true }
    ? readonly string[]
    : string;
type Given = { readonly [Name in keyof typeof logOptions]?: Stated<(typeof logOptions)[Name]> | undefined };

/** Or what is wrong with what was given. */
export function logMappingOf(given: Given): Omit<LogMapping, 'probes'> | string {
  const times = timesOf(given);
  if (typeof times === 'string') return times;
  const columns = pairsOf('column', given.column, 'PROBE');
  if (typeof columns === 'string') return columns;
  const units = pairsOf('column-unit', given['column-unit'], 'C, =F or =K');
  if (typeof units === 'string') return units;
  const notUnit = Object.values(units ?? {}).find((each) => !(temperatureUnits as readonly string[]).includes(each));
  if (notUnit !== undefined) return `--column-unit wants HEADER=C, =F or =K, found "${notUnit}"`;
  const headerLine = given['header-line'] === undefined ? undefined : Number(given['header-line']);
  if (headerLine !== undefined && !(Number.isInteger(headerLine) && headerLine > 0)) {
    return '--header-line wants the number of a line, from 1';
  }
  const delimiter = given.delimiter === undefined ? undefined : delimiterNamed(given.delimiter);
  if (delimiter === undefined && given.delimiter !== undefined) return '--delimiter wants tab, semicolon or comma';
  const chosen = chosenOf(given);
  if (typeof chosen === 'string') return chosen;
  const { 'time-unit': timeUnit, ...forms } = chosen;
  return {
    ...times,
    ...forms,
    columns,
    units: units as LogMapping['units'],
    timeUnit,
    headerLine,
    delimiter,
    sheet: given.sheet,
    leaveOut: given['leave-out'],
    timeColumn: given['time-column'],
    dateColumn: given['date-column'],
    leaveOutRows: given['leave-out-rows'],
  };
}

const delimiterNamed = (text: string): Delimiter | undefined =>
  delimiters.find((each) => delimiterNames[each] === text.toLowerCase() || each === text);

/** How an answer to a question of the reader is given here. */
export const optionHint = ({ question }: LogProblem): string =>
  question === undefined || question.asks === 'columns' ? '' : ` (${optionOf[question.asks]})`;

const optionOf: Readonly<Record<Exclude<LogQuestionKind, 'columns'>, string>> = {
  unit: '--unit',
  order: '--order',
  zone: '--zone or --offset',
  numbers: '--numbers',
  clock: '--clock',
  day: '--day',
  decimal: '--decimal',
  sheet: '--sheet',
  leaveOutRows: '--leave-out-rows',
};

const choices = {
  unit: temperatureUnits,
  decimal: decimalMarks,
  order: dateOrders,
  numbers: numberedTimes,
  clock: clockForms,
  'time-unit': elapsedUnits,
} as const;
type Chosen = { readonly [K in keyof typeof choices]?: (typeof choices)[K][number] };

function chosenOf(given: Given): Chosen | string {
  const chosen: Record<string, string> = {};
  for (const [name, allowed] of Object.entries(choices) as [keyof typeof choices, readonly string[]][]) {
    const value = given[name];
    if (value === undefined) continue;
    if (!allowed.includes(value)) return `--${name} wants one of ${allowed.map((each) => `"${each}"`).join(', ')}`;
    chosen[name] = value;
  }
  return chosen as Chosen;
}

function timesOf(given: Given): Pick<LogMapping, 'start' | 'offsetMinutes' | 'zone' | 'day'> | string {
  const offsetMinutes = given.offset === undefined ? undefined : offsetMinutesOf(given.offset);
  if (given.offset !== undefined && offsetMinutes === undefined) return '--offset wants an offset from UTC, as +01:00';
  if (given.zone !== undefined && given.offset !== undefined) return '--zone and --offset: give one of them';
  if (given.zone !== undefined && zoneClock(given.zone) === undefined) return `--zone: ${noZone(given.zone)}`;
  const start = given.start === undefined ? undefined : Date.parse(given.start);
  if (start !== undefined && (Number.isNaN(start) || !/(Z|[+-]\d{2}:\d{2})$/i.test(given.start ?? ''))) {
    return '--start wants a date-time with its offset, as 2026-11-25T08:00:00+01:00';
  }
  const day = given.day === undefined ? undefined : Date.parse(`${given.day}T00:00:00Z`);
  if (given.day !== undefined && (!/^\d{4}-\d{2}-\d{2}$/.test(given.day) || Number.isNaN(day))) {
    return '--day wants a day, as 2026-11-25';
  }
  return {
    ...(offsetMinutes === undefined ? {} : { offsetMinutes }),
    ...(given.zone === undefined ? {} : { zone: given.zone }),
    ...(start === undefined ? {} : { start: start as Instant }),
    ...(day === undefined ? {} : { day }),
  };
}

function pairsOf(
  option: string,
  given: readonly string[] | undefined,
  right: string,
): Record<string, string> | undefined | string {
  if (given === undefined) return undefined;
  const pairs: Record<string, string> = {};
  for (const each of given) {
    const [header, ...rest] = each.split('=');
    if (!header || rest.length === 0) return `--${option} wants HEADER=${right}, found "${each}"`;
    pairs[header.trim()] = rest.join('=').trim();
  }
  return pairs;
}

export const tooManyLogs = (count: number): string | undefined =>
  count > limits.logFilesMaximum ? `at most ${limits.logFilesMaximum} logs are read, found ${count}` : undefined;
