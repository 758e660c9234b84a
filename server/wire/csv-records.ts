/**
 * A delimited text file, record by record, in bounded memory: only the file's bytes and one record are
 * held. A record without a quote is its text cut at the delimiter; one with a quote goes to csv-parse,
 * together with the lines that its quotes run over (RFC 4180).
 */
import { parse } from 'csv-parse/sync';
import { limits } from '../measure/limits.ts';

export const delimiters = ['\t', ';', ','] as const;
export type Delimiter = (typeof delimiters)[number];
export const delimiterNames: Readonly<Record<Delimiter, string>> = { '\t': 'tab', ';': 'semicolon', ',': 'comma' };

export interface CsvRecord {
  /** Line of the file on which it begins, from 1. */
  readonly line: number;
  readonly fields: readonly string[];
  /** False only for a last record that no line end follows. */
  readonly ended: boolean;
}

export type CsvItem = CsvRecord | { readonly line: number; readonly problem: string };

/**
 * Cuts the file into records; blank lines are passed over, and so is the line "sep=;" that spreadsheets put first. Lines
 * that begin with # are passed over too, unless whoever reads wants to tell of them.
 */
export function* csvRecords(
  bytes: Uint8Array,
  delimiter: Delimiter,
  encoding: string,
  remarks: 'passed over' | 'kept' = 'passed over',
): Generator<CsvItem> {
  let quoted = '';
  let quotedFrom = 0;
  for (const { text, line, ended } of lines(bytes, encoding)) {
    if (quoted === '' && (text.trim() === '' || (line === 1 && separatorLine.test(text)))) continue;
    if (quoted === '' && remarks === 'passed over' && text.startsWith('#')) continue;
    if (text.length + quoted.length > limits.importRecordMaximum) {
      yield {
        line,
        problem: `this record is longer than ${limits.importRecordMaximum} characters; is a quote left open?`,
      };
      return;
    }
    if (quoted === '' && !text.includes('"')) {
      yield { line, fields: text.split(delimiter).map((field) => field.trim()), ended };
      continue;
    }
    if (quoted === '') quotedFrom = line;
    quoted = quoted === '' ? text : `${quoted}\n${text}`;
    if (quoteCount(quoted) % 2 === 1 && ended) continue;
    yield quotedRecord(quoted, delimiter, quotedFrom, ended);
    quoted = '';
  }
  if (quoted !== '') yield { line: quotedFrom, problem: 'a quote is opened here and never closed' };
}

/** The delimiter that cuts the first lines into most fields. Tab and semicolon go before comma, which may be a decimal sign. */
export const delimiterOf = (bytes: Uint8Array, encoding: string): Delimiter | undefined => {
  let best: { delimiter: Delimiter; fields: number } | undefined;
  for (const delimiter of delimiters) {
    const fields = fieldsOfFirst(bytes, delimiter, encoding);
    if (fields > 1 && (best === undefined || fields > best.fields)) best = { delimiter, fields };
  }
  return best?.delimiter;
};

const separatorLine = /^sep=.$/i;
const chunkBytes = 65_536;

const fieldsOfFirst = (bytes: Uint8Array, delimiter: Delimiter, encoding: string): number => {
  for (const item of csvRecords(bytes, delimiter, encoding)) return 'fields' in item ? item.fields.length : 0;
  return 0;
};

const quotedRecord = (text: string, delimiter: Delimiter, line: number, ended: boolean): CsvItem => {
  try {
    const [fields] = parse(text, { delimiter, relax_column_count: true, trim: true, to: 1 }) as string[][];
    return { line, fields: fields ?? [], ended };
  } catch {
    return { line, problem: 'the quotes of this line do not pair; write " as "" inside a quoted field' };
  }
};

const quoteCount = (text: string): number => text.split('"').length - 1;

/** Some old programs end their lines with a carriage return alone. */
const lineEnd = (decoder: TextDecoder, bytes: Uint8Array): string => {
  const sample = new TextDecoder(decoder.encoding).decode(bytes.subarray(0, chunkBytes));
  return !sample.includes('\n') && sample.includes('\r') ? '\r' : '\n';
};

function* lines(
  bytes: Uint8Array,
  encoding: string,
): Generator<{ readonly text: string; readonly line: number; readonly ended: boolean }> {
  const decoder = new TextDecoder(encoding);
  const end = lineEnd(decoder, bytes);
  let rest = '';
  let line = 0;
  for (let from = 0; from < bytes.length; from += chunkBytes) {
    const isLast = from + chunkBytes >= bytes.length;
    const pieces = (rest + decoder.decode(bytes.subarray(from, from + chunkBytes), { stream: !isLast })).split(end);
    rest = pieces.pop() ?? '';
    for (const piece of pieces) {
      line += 1;
      yield { text: piece.endsWith('\r') ? piece.slice(0, -1) : piece, line, ended: true };
    }
    // A line without end is handed on as it is, so that it is refused instead of growing.
    if (rest.length > limits.importRecordMaximum) {
      yield { text: rest, line: line + 1, ended: false };
      return;
    }
  }
  if (rest !== '') yield { text: rest, line: line + 1, ended: false };
}
