/** Rows that were added to a CSV file, read under the header of the file as an imported log is. */
import { limits } from '../../measure/limits.ts';
import type { Milliseconds } from '../../measure/quantity.ts';
import type { CsvFolder } from '../../weld/connection/folder.ts';
import type { Probe } from '../../weld/probe.ts';
import type { Scan } from '../../weld/scan.ts';
import type { ToldValue } from '../../weld/told.ts';
import { csvRecords } from '../csv-records.ts';
import { type Log, type LogMapping, readLog } from '../log-file.ts';
import { isReading } from '../log-layout.ts';
import { readCell } from '../log-numbers.ts';
import type { LogProblem } from '../log-problem.ts';
import { unitName } from '../log-units.ts';
import { encodingOf } from '../text-encoding.ts';

export interface Row {
  /** Of the file's own clock, milliseconds from where that begins. */
  readonly fileTime: number;
  readonly values: readonly ToldValue[];
  /** Why a cell holds no temperature, where the logger did not leave it out itself. */
  readonly doubts: readonly string[];
}

/** The lines above the first reading, with what is the same for all rows below. */
export interface Head {
  readonly bytes: Uint8Array;
  readonly line: number;
  /** Whether its times go on from file to file. */
  readonly isDated: boolean;
}

/** Of the beginning of a file; a string says why it cannot be read, undefined that no reading stands in it yet. */
export function headOf(connection: CsvFolder, beginning: Uint8Array): Head | string | undefined {
  const encoding = encodingOf(beginning);
  if (encoding.startsWith('utf-16')) return 'it is written in UTF-16, which cannot be followed as it grows';
  const log = readLog(beginning, mappingOf(connection));
  const { guess } = log;
  if (guess === undefined) return log.problems[0] === undefined ? undefined : textOf(log.problems[0]);
  let firstReading: number | undefined;
  for (const item of csvRecords(beginning, guess.delimiter, encoding, 'kept')) {
    if (item.line <= guess.headerLine || !('fields' in item) || !isReading(item.fields)) continue;
    firstReading = item.line;
    break;
  }
  if (firstReading === undefined) return undefined;
  if (log.problems[0] !== undefined) return textOf(log.problems[0]);
  const against = guess.probes.find(({ unit }) => connection.unit !== undefined && unit !== connection.unit);
  if (against !== undefined)
    return `${against.column}: by the file it is in ${unitName[against.unit]}, by the connection in ${unitName[connection.unit!]}; one of the two is wrong`;
  return {
    bytes: beginning.subarray(0, offsetOfLine(beginning, firstReading)),
    line: guess.headerLine,
    isDated: log.timeForm !== 'elapsed',
  };
}

export function rowsOf(
  connection: CsvFolder,
  head: Head,
  added: Uint8Array,
): { readonly rows: readonly Row[]; readonly problems: readonly string[] } {
  const mapping = { ...mappingOf(connection), headerLine: head.line };
  const whole = read(head, added, mapping);
  if (whole.problems.length === 0) {
    return {
      rows: [...whole.scans].map((scan) => rowOf(connection, scan)),
      problems: belowHead(head, whole).map(textOf),
    };
  }
  // One line that cannot be read, or a clock that was put back between two, must not cost the others.
  const lines = linesOf(added);
  if (lines.length <= 1) return { rows: [], problems: [textOf(whole.problems[0]!)] };
  const each = lines.map((line) => rowsOf(connection, head, line));
  return { rows: each.flatMap(({ rows }) => rows), problems: each.flatMap(({ problems }) => problems) };
}

/** What stands above the first reading comes with each part that is read, and is no row. */
const belowHead = (head: Head, { skipped }: Log): readonly LogProblem[] => {
  const above = linesOf(head.bytes).length;
  return skipped.filter(({ line }) => line === undefined || line > above);
};

const read = (head: Head, added: Uint8Array, mapping: LogMapping): Log => {
  const both = new Uint8Array(head.bytes.length + added.length);
  both.set(head.bytes);
  both.set(added, head.bytes.length);
  return readLog(both, mapping);
};

const rowOf = ({ channels, decimal }: CsvFolder, { measuredAt, values }: Scan): Row => {
  const told = channels.map(({ channel }): ToldValue => {
    const value = values.find(({ probe }) => probe === `${channel}`)!;
    const said = value.raw.form === 'text' ? value.raw.text : 'empty';
    return value.quality === 'good'
      ? { channel, said, reported: value.temperature! }
      : { channel, said, fault: value.quality };
  });
  const doubts = told.flatMap((value) =>
    'fault' in value && value.said !== 'empty' && readCell(value.said, decimal).kind === 'not a number'
      ? [`channel ${value.channel}: "${value.said}" is no number with the decimal mark "${decimal}"`]
      : [],
  );
  return { fileTime: measuredAt, values: told, doubts };
};

/** What is absent is found out from the file. Only the distance of two rows counts, so that any zone and day serve. */
function mappingOf(connection: CsvFolder): LogMapping {
  const { timeColumn, dateColumn, headerLine, unit, decimal, order, numbers, clock, board } = connection;
  return {
    probes: connection.channels.map(
      ({ channel, thermocouple }): Probe => ({ id: `${channel}`, board, channel, thermocouple, use: 'spare' }),
    ),
    columns: Object.fromEntries(connection.channels.map(({ channel, column }) => [column, `${channel}`])),
    isGrowing: true,
    zone: 'UTC',
    day: 0 as Milliseconds,
    decimal,
    timeColumn,
    dateColumn,
    headerLine,
    unit,
    order,
    numbers,
    clock,
  };
}

const textOf = ({ column, message, question }: LogProblem): string =>
  `${column === undefined ? '' : `${column}: `}${message}${question === undefined ? '' : ` (in the connection file: ${question.asks})`}`.slice(
    0,
    limits.textMaximum,
  );

const offsetOfLine = (bytes: Uint8Array, line: number): number => {
  let at = 0;
  for (let passed = 1; passed < line; passed += 1) at = bytes.indexOf(10, at) + 1;
  return at;
};

const linesOf = (bytes: Uint8Array): Uint8Array[] => {
  const lines: Uint8Array[] = [];
  for (let from = 0; from < bytes.length; ) {
    const end = bytes.indexOf(10, from) + 1;
    lines.push(bytes.subarray(from, end === 0 ? bytes.length : end));
    from = end === 0 ? bytes.length : end;
  }
  return lines;
};
