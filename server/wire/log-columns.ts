/**
 * Which column of a log is which probe. Every probe of the joint needs its column and every column its
 * probe, or the plain statement that it is left out: a required place must not be lost by a misspelling.
 */
import type { Probe } from '../weld/probe.ts';
import type { LogProblem } from './log-problem.ts';
import { type ElapsedUnit, elapsedUnitOf } from './log-time.ts';

export interface ColumnMapping {
  readonly probes: readonly Probe[];
  /** Header of the column to id of the probe. Absent: the header is the probe's id. */
  readonly columns?: Readonly<Record<string, string>> | undefined;
  /** Headers of columns to leave out. With `columns` given, all that it does not name are left out. */
  readonly leaveOut?: readonly string[] | undefined;
  /** Header of the time column. Absent: the one column that is headed as a time, or else the first. */
  readonly timeColumn?: string | undefined;
}

export interface Columns {
  readonly timeIndex: number;
  readonly timeUnit: ElapsedUnit | undefined;
  /** In the order of the joint's probes. */
  readonly probes: readonly { readonly probe: Probe; readonly index: number; readonly header: string }[];
  readonly leftOut: readonly string[];
}

export const columnsOf = (
  header: readonly string[],
  line: number,
  mapping: ColumnMapping,
): { readonly columns: Columns; readonly problems: readonly LogProblem[] } => {
  const problems: LogProblem[] = doubled(header).map((name) => ({
    line,
    column: name,
    message: `two columns are headed "${name}"; give each its own name`,
  }));
  const timeIndex = mapping.timeColumn === undefined ? timeIndexOf(header) : indexOf(header, mapping.timeColumn);
  if (timeIndex === -1) {
    problems.push({
      line,
      message: `there is no time column "${mapping.timeColumn}"; the columns are ${listed(header)}`,
    });
  }
  if (header.some((name, index) => index !== timeIndex && /^date$/i.test(withoutUnit(name)))) {
    problems.push({
      line,
      message: 'date and time stand in two columns; join them into one, as in 2026-11-25 14:03:22',
    });
  }
  const named = columnByProbe(header, timeIndex, mapping, line, problems);
  const probes = mapping.probes.flatMap((probe) => {
    const index = named.get(probe.id);
    return index === undefined ? [] : [{ probe, index, header: header[index] ?? '' }];
  });
  const absent = mapping.probes.filter(({ id }) => !named.has(id)).map(({ id }) => id);
  if (absent.length > 0) {
    problems.push({
      line,
      message: `no column is mapped to ${absent.length === 1 ? 'probe' : 'probes'} ${listed(absent)}; the columns are ${listed(header)}`,
    });
  }
  const used = new Set([timeIndex, ...probes.map(({ index }) => index)]);
  const others = header.filter((name, index) => !used.has(index) && name !== '');
  const forgotten = mapping.columns === undefined ? others.filter((name) => !mapping.leaveOut?.includes(name)) : [];
  if (forgotten.length > 0) {
    problems.push({
      line,
      message: `${forgotten.length === 1 ? 'column' : 'columns'} ${listed(forgotten)} match no probe of the joint; map them to probes, or name them to be left out`,
    });
  }
  for (const { header: name, index } of probes) {
    const unit = unitIn(header[index] ?? '');
    if (unit !== undefined && !isCelsius(unit)) problems.push({ line, column: name, message: notCelsius(unit) });
  }
  const timeUnit = elapsedUnitOf(unitIn(header[timeIndex] ?? '') ?? '');
  return { columns: { timeIndex, timeUnit, probes, leftOut: others }, problems };
};

/** The row of units below the header, or undefined if the row is data. */
export const unitsRow = (
  fields: readonly string[],
  columns: Columns,
  line: number,
): { readonly timeUnit: ElapsedUnit | undefined; readonly problems: readonly LogProblem[] } | undefined => {
  const time = fields[columns.timeIndex] ?? '';
  if (/\d/.test(time) || !fields.some((field) => field !== '')) return undefined;
  if (columns.probes.some(({ index }) => /\d/.test(fields[index] ?? ''))) return undefined;
  const problems = columns.probes.flatMap(({ index, header }) => {
    const unit = fields[index] ?? '';
    return unit === '' || isCelsius(unit) ? [] : [{ line, column: header, message: notCelsius(unit) }];
  });
  const timeUnit = elapsedUnitOf(time.replace(/[()[\]]/g, ''));
  const unknown = timeUnit === undefined && !/^\W*$/.test(time) && !/^\W*(time|date)\W*/i.test(time);
  return {
    timeUnit,
    problems: unknown
      ? [...problems, { line, message: `"${time}" is not a unit of time that this reads; allowed are ms, s, min, h` }]
      : problems,
  };
};

/** Indexes of columns by the probe they carry. */
const columnByProbe = (
  header: readonly string[],
  timeIndex: number,
  mapping: ColumnMapping,
  line: number,
  problems: LogProblem[],
): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  const ids = new Set(mapping.probes.map(({ id }) => id));
  const pairs =
    mapping.columns === undefined
      ? header.flatMap((name, index) =>
          index === timeIndex ? [] : [[name, ids.has(name) ? name : withoutUnit(name)] as const],
        )
      : Object.entries(mapping.columns);
  for (const [name, id] of pairs) {
    if (mapping.columns === undefined && !ids.has(id)) continue;
    if (mapping.leaveOut?.includes(name)) continue;
    const index = indexOf(header, name);
    if (index === -1) {
      problems.push({
        line,
        message: `there is no column "${name}" to map to probe ${id}; the columns are ${listed(header)}`,
      });
    } else if (!ids.has(id)) {
      problems.push({
        line,
        column: name,
        message: `column "${name}" is mapped to "${id}", which is no probe of the joint`,
      });
    } else if (found.has(id)) {
      problems.push({ line, column: name, message: `two columns are mapped to probe ${id}` });
    } else if (index === timeIndex) {
      problems.push({ line, column: name, message: 'the time column cannot be a probe' });
    } else {
      found.set(id, index);
    }
  }
  return found;
};

/** A running number in front must not be taken for seconds, so a column headed as a time goes before the first. */
const timeIndexOf = (header: readonly string[]): number => {
  const named = header.flatMap((name, index) => (timeName.test(withoutUnit(name)) ? [index] : []));
  return named.length === 1 ? named[0]! : 0;
};

const timeName = /^(elapsed|(elapsed )?time|time ?stamp|date ?[/ ]?time|date and time)$/i;

/** The header as it stands, or without its unit in brackets. */
const indexOf = (header: readonly string[], name: string): number => {
  const exact = header.indexOf(name);
  return exact === -1 ? header.findIndex((candidate) => withoutUnit(candidate) === name) : exact;
};

const bracketed = /\s*[([]\s*([^()[\]]*?)\s*[)\]]\s*$/;
const withoutUnit = (name: string): string => name.replace(bracketed, '');
const unitIn = (name: string): string | undefined => bracketed.exec(name)?.[1];

/** Only what is certainly another unit is refused in a header: a bracket may hold anything. */
const isCelsius = (unit: string): boolean =>
  !/^(°\s*|deg\.?\s*|degrees?\s*)?(f|k|r|fahrenheit|kelvin|rankine|mv|v|ma|uv|µv)$/i.test(
    unit.replace(/[()[\]]/g, '').trim(),
  );

const notCelsius = (unit: string): string =>
  `this column is in "${unit}"; only degrees Celsius are read. Convert it first, or take the bracket off the header if it is no unit`;

const doubled = (header: readonly string[]): readonly string[] => [
  ...new Set(header.filter((name, index) => name !== '' && header.indexOf(name) !== index)),
];

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 40).map((name) => `"${name}"`);
  return names.length > 40 ? `${shown.join(', ')} and ${names.length - 40} more` : shown.join(', ');
};
