/**
 * A workbook of a spreadsheet program as rows of a log. A date keeps its day and time as the sheet shows them, a number its
 * decimals, an error its word, and the line of a row is its number in the sheet.
 */
import readWorkbook from 'read-excel-file/universal';
import { limits } from '../measure/limits.ts';
import type { CsvRecord } from './csv-records.ts';
import { isReading } from './log-layout.ts';
import { type DecimalMark, NumberEvidence } from './log-numbers.ts';
import type { LogProblem } from './log-problem.ts';
import { type LogSource, textSource, type Unread, unread } from './log-source.ts';
import { hiddenIn, isZip, type WorkbookParts, workbookParts } from './workbook-parts.ts';

/** What a person says of a workbook before its rows can be made. */
export interface WorkbookSaid {
  /** Which sheet, where several hold readings. */
  readonly sheet?: string | undefined;
  /** How numbers that were typed as text are written. */
  readonly decimal?: DecimalMark | undefined;
}

/** Text or workbook, told apart by its first bytes. */
export async function openLog(bytes: Uint8Array, said: WorkbookSaid = {}): Promise<LogSource | Unread> {
  if (!isZip(bytes)) return textSource(bytes);
  const parts = workbookParts(bytes);
  if (typeof parts === 'string') return unread(parts);
  try {
    const sheets = await readWorkbook(parts.bytes.slice().buffer);
    return chosen(
      sheets.map(({ sheet, data }) => ({ name: sheet, rows: data as readonly (readonly unknown[])[] })),
      parts,
      said,
    );
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    return unread(`the workbook cannot be read (${why}); open it and save the sheet as CSV`);
  }
}

interface Sheet {
  readonly name: string;
  readonly rows: readonly (readonly unknown[])[];
}

const chosen = (
  sheets: readonly Sheet[],
  parts: WorkbookParts,
  { sheet: asked, decimal }: WorkbookSaid,
): LogSource | Unread => {
  const names = sheets.map(({ name }) => name);
  const made = sheets.map((each) => ({ name: each.name, rows: each.rows, texts: textsOf(each.rows, parts.from1904) }));
  const holding = made.filter(({ texts }) => texts.filter((fields) => isReading(fields)).length > 1);
  const possible = asked === undefined ? holding : made.filter(({ name }) => name === asked);
  const [only, second] = possible;
  if (only === undefined) {
    const choices = (holding.length > 0 ? holding : made).map(({ name }) => name);
    const message =
      asked === undefined
        ? `no sheet of the workbook holds rows of readings; it has ${names.join(', ')}`
        : `the workbook has no sheet "${asked}"; it has ${names.join(', ')}`;
    return { problem: { message, ...(asked === undefined ? {} : { question: { asks: 'sheet', choices } }) } };
  }
  if (second !== undefined) {
    const choices = possible.map(({ name }) => name);
    return {
      problem: {
        message: `several sheets hold readings: ${choices.join(', ')}; say which`,
        question: { asks: 'sheet', choices },
      },
    };
  }
  const mark = decimal ?? markOfTexts(only.rows, only.texts) ?? '.';
  if (typeof mark !== 'string') return { problem: mark };
  const records = recordsOf(only.rows, only.texts, mark);
  const remarks = hiddenRemarks(parts.sheets.get(only.name) ?? '');
  return {
    written: `workbook, sheet "${only.name}"`,
    encoding: 'workbook',
    delimiters: ['\t'],
    sheet: { name: only.name, choices: names },
    from1904: parts.from1904,
    remarks,
    records: () => records,
  };
};

/** A number of a workbook has no mark; one that was typed as text has, and only that says which. */
const markOfTexts = (
  rows: readonly (readonly unknown[])[],
  texts: readonly (readonly string[])[],
): DecimalMark | undefined | LogProblem => {
  const evidence = new NumberEvidence();
  for (const [index, cells] of rows.entries()) {
    if (!isReading(texts[index]!)) continue;
    for (const cell of cells) if (typeof cell === 'string') evidence.observe(cell, index + 1, isTemperature);
  }
  return evidence.decide();
};

/** Anything that a thermocouple can be asked for. */
const isTemperature = (value: number): boolean => Math.abs(value) < 2500;

const recordsOf = (
  rows: readonly (readonly unknown[])[],
  texts: readonly (readonly string[])[],
  mark: DecimalMark,
): readonly CsvRecord[] => {
  // A sheet pads its rows to one width; empty columns at the end are none.
  const width = Math.max(0, ...texts.slice(0, limits.logHeaderRecords).map(filledWidth));
  return texts.map((fields, index) => {
    const marked =
      mark === '.'
        ? fields
        : fields.map((text, at) => (typeof rows[index]![at] === 'number' ? text.replace('.', mark) : text));
    const kept = marked.slice(0, Math.max(width, filledWidth(marked)));
    return { line: index + 1, fields: padded(kept, width), ended: true };
  });
};

const filledWidth = (fields: readonly string[]): number => fields.findLastIndex((field) => field !== '') + 1;
const padded = (fields: readonly string[], width: number): readonly string[] =>
  fields.length >= width ? fields : [...fields, ...Array.from({ length: width - fields.length }, () => '')];

const hiddenRemarks = (xml: string): readonly string[] => {
  const { columns, rows } = hiddenIn(xml);
  return [
    ...(columns.length === 0 ? [] : [`the sheet hides column ${columns.join(', ')}; it is read like the others`]),
    ...(rows === 0
      ? []
      : [
          `the sheet hides ${rows} ${rows === 1 ? 'row' : 'rows'}, by a filter or by hand; they are read like the others`,
        ]),
  ];
};

const textsOf = (rows: readonly (readonly unknown[])[], from1904: boolean): readonly (readonly string[])[] => {
  // At midnight a date and time is a whole day, and only the rest of its column tells it from a date.
  const timed = new Set<number>();
  for (const cells of rows) {
    for (const [column, cell] of cells.entries()) {
      if (cell instanceof Date && daysOf(cell, from1904) % 1 !== 0) timed.add(column);
    }
  }
  return rows.map((cells) =>
    cells.map((cell, column) => {
      if (cell === null || cell === undefined) return '';
      return cell instanceof Date ? dateText(cell, from1904, timed.has(column)) : String(cell).trim();
    }),
  );
};

const dayMilliseconds = 86_400_000;
const day1900 = Date.UTC(1899, 11, 30);
const day1904 = Date.UTC(1904, 0, 1);

/** Days are a binary fraction, cut to milliseconds by the reader; instruments do not write finer than ten into one. */
const daysOf = (date: Date, from1904: boolean): number =>
  (Math.round(date.getTime() / 10) * 10 - (from1904 ? day1904 : day1900)) / dayMilliseconds;

/** What lies within some years of the day that a workbook counts from is a time of day or an elapsed time. */
const dateText = (date: Date, from1904: boolean, timed: boolean): string => {
  const at = Math.round(date.getTime() / 10) * 10;
  const text = new Date(at).toISOString();
  const time = text.slice(11, at % 1000 === 0 ? 19 : 22);
  if (at >= firstDay) return timed ? `${text.slice(0, 10)} ${time}` : text.slice(0, 10);
  const hours = Math.floor((daysOf(date, from1904) * dayMilliseconds) / 3_600_000);
  return `${hours}${time.slice(2)}`;
};

/** No log is older than 1970, and no elapsed time longer than that. */
const firstDay = 0;
