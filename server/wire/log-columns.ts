/**
 * Which column of a log is which probe, which hold date and time, and in which unit each is. Every probe of the joint needs
 * its column and every column its probe, or the plain statement that it is left out: a required place must not be lost by a
 * misspelling. A unit that stands nowhere is asked for: degrees Fahrenheit read as Celsius look like a steel that is hot enough.
 */
import type { Probe } from '../weld/probe.ts';
import type { Layout } from './log-layout.ts';
import type { LogProblem } from './log-problem.ts';
import { type ElapsedUnit, elapsedUnitOf } from './log-time.ts';
import { type StatedUnit, statedUnit, type TemperatureUnit, unitIn, withoutUnit } from './log-units.ts';

export interface ColumnMapping {
  readonly probes: readonly Probe[];
  /** Header of the column to id of the probe. Absent: the header is the probe's id. */
  readonly columns?: Readonly<Record<string, string>> | undefined;
  /** Headers of columns to leave out. With `columns` given, all that it does not name are left out. */
  readonly leaveOut?: readonly string[] | undefined;
  /** Header of the time column. Absent: the one column that is headed as a time, or else the first. */
  readonly timeColumn?: string | undefined;
  /** Header of the column of dates, where they stand apart; empty: there is none. Absent: the one that is headed as a date beside a time. */
  readonly dateColumn?: string | undefined;
  /** Unit of the columns that state none. */
  readonly unit?: TemperatureUnit | undefined;
  /** Header of a column to its unit, whatever stands in the file. */
  readonly units?: Readonly<Record<string, TemperatureUnit>> | undefined;
  /** What plain numbers of the time column count, whatever stands in the file. */
  readonly timeUnit?: ElapsedUnit | undefined;
  /** Whether this is one of several logs of the job, which need not have all the probes. */
  readonly isPart?: boolean | undefined;
}

export interface ProbeColumn {
  readonly probe: Probe;
  readonly index: number;
  readonly header: string;
  readonly unit: TemperatureUnit;
}

export interface Columns {
  readonly timeIndex: number;
  /** Absent: date and time stand in one column, or there is no date. */
  readonly dateIndex: number | undefined;
  readonly timeUnit: ElapsedUnit | undefined;
  /** In the order of the joint's probes. */
  readonly probes: readonly ProbeColumn[];
  readonly leftOut: readonly string[];
}

export const columnsOf = (
  layout: Layout,
  mapping: ColumnMapping,
): { readonly columns: Columns; readonly problems: readonly LogProblem[] } => {
  const { header, headerLine: line } = layout;
  const problems: LogProblem[] = [];
  const timeIndex = mapping.timeColumn === undefined ? timeIndexOf(header) : indexOf(header, mapping.timeColumn);
  if (timeIndex === -1) {
    problems.push({
      line,
      message: `there is no time column "${mapping.timeColumn}"; the columns are ${listed(header)}`,
      question: { asks: 'columns', choices: header },
    });
  }
  const dateIndex = dateIndexOf(header, timeIndex, mapping.dateColumn);
  if (dateIndex === -1) {
    problems.push({
      line,
      message: `there is no column "${mapping.dateColumn}" of dates; the columns are ${listed(header)}`,
      question: { asks: 'columns', choices: header },
    });
  }
  const named = columnByProbe(header, [timeIndex, dateIndex], mapping, line, problems);
  const used = new Set([timeIndex, dateIndex, ...named.values()]);
  for (const name of doubledNames(header, used)) {
    problems.push({ line, column: name, message: `two columns are headed "${name}"; give each its own name` });
  }
  const others = header.filter((name, index) => !used.has(index) && name !== '');
  problems.push(...unmatched(named, others, header, line, mapping));
  const probes = mapping.probes.flatMap((probe): ProbeColumn[] => {
    const index = named.get(probe.id);
    if (index === undefined) return [];
    const unit = mapping.units?.[header[index] ?? ''] ?? unitOfColumn(layout, index, mapping.unit);
    if (typeof unit === 'object') problems.push(unit);
    return [{ probe, index, header: header[index] ?? '', unit: typeof unit === 'object' ? 'C' : unit }];
  });
  const time = mapping.timeUnit ?? timeUnitOf(layout, timeIndex);
  if (typeof time === 'object') problems.push(time);
  const timeUnit = typeof time === 'object' ? undefined : time;
  return {
    columns: { timeIndex, dateIndex: dateIndex === -1 ? undefined : dateIndex, timeUnit, probes, leftOut: others },
    problems,
  };
};

const unmatched = (
  named: ReadonlyMap<string, number>,
  others: readonly string[],
  header: readonly string[],
  line: number,
  mapping: ColumnMapping,
): readonly LogProblem[] => {
  const absent = mapping.probes.filter(({ id }) => !named.has(id)).map(({ id }) => id);
  const question = { asks: 'columns', choices: header } as const;
  const missing: LogProblem = {
    line,
    message: `no column is mapped to ${absent.length === 1 ? 'probe' : 'probes'} ${listed(absent)}; the columns are ${listed(header)}`,
    question,
  };
  const forgotten = mapping.columns === undefined ? others.filter((name) => !mapping.leaveOut?.includes(name)) : [];
  const unknown: LogProblem = {
    line,
    message: `${forgotten.length === 1 ? 'column' : 'columns'} ${listed(forgotten)} match no probe of the joint; map them to probes, or name them to be left out`,
    question,
  };
  const isMissing = mapping.isPart === true ? named.size === 0 : absent.length > 0;
  return [...(isMissing ? [missing] : []), ...(forgotten.length > 0 ? [unknown] : [])];
};

/** Indexes of columns by the probe they carry. */
const columnByProbe = (
  header: readonly string[],
  timeIndexes: readonly (number | undefined)[],
  mapping: ColumnMapping,
  line: number,
  problems: LogProblem[],
): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  const ids = new Set(mapping.probes.map(({ id }) => id));
  const pairs =
    mapping.columns === undefined
      ? header.flatMap((name, index) =>
          timeIndexes.includes(index) ? [] : [[name, ids.has(name) ? name : withoutUnit(name)] as const],
        )
      : Object.entries(mapping.columns);
  for (const [name, id] of pairs) {
    if (mapping.columns === undefined && !ids.has(id)) continue;
    if (mapping.leaveOut?.includes(name)) continue;
    const index = indexOf(header, name);
    if (index === -1) {
      // Of several logs each has its own columns; a probe that none has is told where they are joined.
      if (mapping.isPart === true) continue;
      problems.push({
        line,
        message: `there is no column "${name}" to map to probe ${id}; the columns are ${listed(header)}`,
        question: { asks: 'columns', choices: header },
      });
    } else if (!ids.has(id)) {
      problems.push({
        line,
        column: name,
        message: `column "${name}" is mapped to "${id}", which is no probe of the joint`,
      });
    } else if (found.has(id)) {
      problems.push({ line, column: name, message: `two columns are mapped to probe ${id}` });
    } else if (timeIndexes.includes(index)) {
      problems.push({ line, column: name, message: 'the time column cannot be a probe' });
    } else {
      found.set(id, index);
    }
  }
  return found;
};

const unitOfColumn = (
  { header, headerLine, units, preamble }: Layout,
  index: number,
  stated: TemperatureUnit | undefined,
): TemperatureUnit | LogProblem => {
  const column = header[index] ?? '';
  const inHeader = unitIn(column);
  const inRow = units?.fields[index];
  const found: StatedUnit | undefined =
    statedUnit(inHeader ?? '') ?? statedUnit(inRow ?? '') ?? preambleUnit(preamble.map(({ fields }) => fields));
  const line = inHeader === undefined && inRow !== undefined ? units!.line : headerLine;
  if (found === 'other') {
    return {
      line,
      column,
      message: `this column is in "${inHeader ?? inRow}"; only temperatures are read, in degrees Celsius or Fahrenheit or in kelvin. Take the bracket off the header if it is no unit`,
    };
  }
  if (found !== undefined && found !== 'K?') return found;
  if (stated !== undefined) return stated;
  return {
    line,
    column,
    message:
      found === 'K?'
        ? '"K" can be kelvin or a thermocouple of type K; say the unit: C, F or K'
        : 'no unit is stated for this column; say the unit: C, F or K',
    question: { asks: 'unit', choices: ['C', 'F', 'K'] },
  };
};

/** What a logger writes of its unit above the header, if it writes of one only. */
const preambleUnit = (rows: readonly (readonly string[])[]): TemperatureUnit | undefined => {
  const text = rows.map((fields) => fields.join(' ')).join('\n');
  const celsius = /(°|º|deg\.? ?)C\b|celsius/i.test(text);
  const fahrenheit = /(°|º|deg\.? ?)F\b|fahrenheit/i.test(text);
  if (celsius === fahrenheit) return undefined;
  return celsius ? 'C' : 'F';
};

const timeUnitOf = ({ header, units }: Layout, index: number): ElapsedUnit | undefined | LogProblem => {
  const inHeader = elapsedUnitOf(unitIn(header[index] ?? '') ?? '');
  const word = (units?.fields[index] ?? '').replaceAll(/[()[\]]/g, '').trim();
  const inRow = elapsedUnitOf(word);
  if (inHeader !== undefined || inRow !== undefined || /^\W*$/.test(word)) return inHeader ?? inRow;
  // A pattern such as hh:mm:ss, or the word again, says nothing that its readings do not say.
  if (/^\W*(time|date|zeit|datum)\W*/i.test(word) || /^[hdmyst]{1,4}([-./:, ][hdmyst.]{1,4})+$/i.test(word))
    return undefined;
  return { line: units!.line, message: `"${word}" is not a unit of time that this reads; allowed are ms, s, min, h` };
};

/** A running number in front must not be taken for seconds, so a column headed as a time goes before the first. */
const timeIndexOf = (header: readonly string[]): number => {
  const named = indexesOf(header, timeName);
  if (named.length === 1) return named[0]!;
  const dates = indexesOf(header, dateName);
  return named.length === 0 && dates.length === 1 ? dates[0]! : (named[0] ?? 0);
};

/** Undefined: no dates stand apart. -1: the column that was named is not there. */
const dateIndexOf = (header: readonly string[], timeIndex: number, named: string | undefined): number | undefined => {
  if (named !== undefined) return named === '' ? undefined : indexOf(header, named);
  const dates = indexesOf(header, dateName).filter((index) => index !== timeIndex);
  return dates.length === 1 ? dates[0] : undefined;
};

const indexesOf = (header: readonly string[], name: RegExp): readonly number[] =>
  header.flatMap((each, index) => (name.test(withoutUnit(each).trim()) ? [index] : []));

const timeName =
  /^(elapsed|(elapsed )?time|time ?stamp|date ?[/ _-]?time|date and time|local time|zeit|uhrzeit|zeitstempel|datum ?[/ ]? ?(uhr)?zeit|heure|date ?\/ ?heure|temps)$/i;
const dateName = /^(date|datum|day|fecha)$/i;

/** The header as it stands, or without its unit. */
const indexOf = (header: readonly string[], name: string): number => {
  const exact = header.indexOf(name);
  return exact === -1 ? header.findIndex((candidate) => withoutUnit(candidate) === name) : exact;
};

const doubledNames = (header: readonly string[], used: ReadonlySet<number | undefined>): readonly string[] => [
  ...new Set(
    header.filter((name, index) => name !== '' && header.indexOf(name) !== index && used.has(header.indexOf(name))),
  ),
];

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 40).map((name) => `"${name}"`);
  return names.length > 40 ? `${shown.join(', ')} and ${names.length - 40} more` : shown.join(', ');
};
