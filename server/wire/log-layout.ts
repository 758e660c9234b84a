/**
 * Where in a file the log stands: how its columns are parted, which line is the header, what stands above it and which row
 * below it holds units. A logger may write its own name, serial number and settings first; those lines are told, never read.
 */
import { limits } from '../measure/limits.ts';
import type { CsvItem, CsvRecord, Delimiter } from './csv-records.ts';
import { readDate, readTimeOfDay } from './log-date.ts';
import { readCell } from './log-numbers.ts';
import { clockForm, elapsedUnitOf } from './log-time.ts';
import { statedUnit, withoutUnit } from './log-units.ts';

export interface Layout {
  readonly delimiter: Delimiter;
  readonly headerLine: number;
  readonly header: readonly string[];
  /** What stands above the header, line by line. */
  readonly preamble: readonly CsvRecord[];
  /** Rows between header and readings that hold units, or words only. */
  readonly units: CsvRecord | undefined;
  readonly between: readonly CsvRecord[];
}

/** What helps to know the header: the names that a person, or the joint, gives its columns. */
export interface LayoutWanted {
  readonly names: readonly string[];
  /** Line of the header, where a person says it. */
  readonly headerLine?: number | undefined;
}

/** The first records, cut by one delimiter after the other; the one by which most rows stand under a header holds. */
export const layoutOf = (
  firstRecords: readonly (readonly [Delimiter, readonly CsvItem[]])[],
  wanted: LayoutWanted,
): Layout | undefined => {
  let best: { readonly layout: Layout; readonly score: number } | undefined;
  for (const [delimiter, items] of firstRecords) {
    const found = layoutBy(delimiter, items, wanted);
    if (found !== undefined && (best === undefined || found.score > best.score)) best = found;
  }
  return best?.layout;
};

/** How far down a header is looked for. */
export const firstRecordsOf = (records: Iterable<CsvItem>): readonly CsvItem[] => {
  const kept: CsvItem[] = [];
  for (const item of records) {
    kept.push(item);
    if (kept.length >= limits.logHeaderRecords || 'problem' in item) break;
  }
  return kept;
};

const layoutBy = (
  delimiter: Delimiter,
  items: readonly CsvItem[],
  wanted: LayoutWanted,
): { readonly layout: Layout; readonly score: number } | undefined => {
  const records = items.filter(
    (item): item is CsvRecord => 'fields' in item && item.fields.some((each) => each !== ''),
  );
  const index = headerIndex(records, wanted);
  const row = records[index];
  if (row === undefined) return undefined;
  const header = row.fields.map((name, at) => (at === 0 ? name.replace(/^#\s*(?=\S)/, '') : name));
  if (widthOf(header) < 2) return undefined;
  const below = records.slice(index + 1).filter(({ fields }) => !fields[0]?.startsWith('#'));
  const dataAt = below.findIndex((each) => isReading(each.fields));
  const upper = (dataAt === -1 ? below.slice(0, 1) : below.slice(0, dataAt)).filter(isWordsOnly);
  const units = upper.find(({ fields }) =>
    fields.some((field) => statedUnit(field) !== undefined || isTimeUnit(field)),
  );
  const fitting = below.filter((each) => isAsWide(each.fields, header)).length;
  const named = wantedNames(header, wanted.names);
  return {
    layout: {
      delimiter,
      headerLine: row.line,
      header,
      preamble: records.slice(0, index),
      units,
      // A row of words above the first reading is no reading; what holds a number is left to whoever reads the rows.
      between: dataAt === -1 ? [] : upper.filter((each) => each !== units),
    },
    score: named * 1_000_000 + fitting * 100 + Math.min(widthOf(header), 99),
  };
};

const headerIndex = (records: readonly CsvRecord[], { names, headerLine }: LayoutWanted): number => {
  if (headerLine !== undefined) return records.findIndex(({ line }) => line === headerLine);
  const byName = records.map(({ fields }) => wantedNames(fields, names));
  const most = Math.max(0, ...byName);
  if (most > 0) return byName.indexOf(most);
  return aboveLongestRun(records) ?? firstHeading(records);
};

/** The row above the longest run of readings of one width, past a row of units. */
const aboveLongestRun = (records: readonly CsvRecord[]): number | undefined => {
  let best: { readonly from: number; readonly worth: number } | undefined;
  for (let from = 0; from < records.length; ) {
    if (!isReading(records[from]!.fields)) {
      from += 1;
      continue;
    }
    const width = records[from]!.fields.length;
    let to = from;
    while (to < records.length && isReading(records[to]!.fields) && records[to]!.fields.length === width) to += 1;
    const worth = (to - from) * width;
    if (best === undefined || worth > best.worth) best = { from, worth };
    from = to;
  }
  if (best === undefined) return undefined;
  let index = best.from - 1;
  while (index > 0 && isUnits(records[index]!.fields)) index -= 1;
  return index < 0 ? undefined : index;
};

/** Without any reading the first row of words in several columns is taken, so that it can be told what is missing below. */
const firstHeading = (records: readonly CsvRecord[]): number =>
  records.findIndex(({ fields }) => widthOf(fields) > 1 && !isReading(fields));

const wantedNames = (fields: readonly string[], names: readonly string[]): number =>
  names.filter((name) => fields.some((field) => field === name || withoutUnit(field.replace(/^#\s*/, '')) === name))
    .length;

const widthOf = (fields: readonly string[]): number => fields.filter((field) => field !== '').length;

const isAsWide = (fields: readonly string[], header: readonly string[]): boolean =>
  fields.length === header.length || (fields.length === header.length + 1 && fields.at(-1) === '');

/** Begins with a number or a time, and holds at least as many numbers as words. */
export const isReading = (fields: readonly string[]): boolean => {
  const filled = fields.filter((field) => field !== '');
  if (filled.length < 2 || !isCounted(filled[0]!)) return false;
  const counted = filled.filter(isCounted).length;
  return counted * 2 >= filled.length || filled.slice(1).every((field) => isCounted(field) || isErrorWord(field));
};

/** Is a number or a time. */
export const isCounted = (field: string): boolean =>
  plain.test(field) ||
  readCell(field, '.').kind === 'number' ||
  readCell(field, ',').kind === 'number' ||
  clockForm.test(field) ||
  readTimeOfDay(field) !== undefined ||
  readDate(field.trim().replaceAll(/\s+/g, ' ')) !== undefined;

const plain = /^[+-]?\d+(?:[.,]\d*)?$/;

const isErrorWord = (field: string): boolean => /^[\p{L}\-*_/#. ]{1,20}$/u.test(field);

const isWordsOnly = ({ fields }: CsvRecord): boolean => !fields.some((field) => /\d/.test(field) && isCounted(field));

/** Units, or the patterns in which loggers say how time is written. */
const isUnits = (fields: readonly string[]): boolean => {
  const filled = fields.filter((field) => field !== '');
  return (
    filled.length > 0 &&
    filled.every((field) => statedUnit(field) !== undefined || isTimeUnit(field) || /^\W+$/.test(field)) &&
    filled.some((field) => statedUnit(field) !== undefined || isTimeUnit(field))
  );
};

const isTimeUnit = (field: string): boolean =>
  elapsedUnitOf(field.replaceAll(/[()[\]]/g, '')) !== undefined ||
  /^[[(]?[hdmyst]{1,4}([-./:, ][hdmyst.]{1,4})+[\])]?$/i.test(field);
