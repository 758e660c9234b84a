/** Where the rows of a log come from: text cut at a delimiter, or the cells of a workbook. Both are walked as often as needed. */
import { limits } from '../measure/limits.ts';
import { type CsvItem, csvRecords, type Delimiter, delimiters } from './csv-records.ts';
import type { LogProblem } from './log-problem.ts';
import { type Encoding, encodingNames, encodingOf } from './text-encoding.ts';

export interface LogSource {
  /** In words, for whoever looks at how the file was read. */
  readonly written: string;
  readonly encoding: Encoding | 'workbook';
  /** Ways to cut it into records; a workbook has one. */
  readonly delimiters: readonly Delimiter[];
  /** Of a workbook: the sheet that is read, and those that could be. */
  readonly sheet?: { readonly name: string; readonly choices: readonly string[] };
  /** Days of a workbook count from 1904-01-01. */
  readonly from1904?: boolean;
  /** What is worth telling of it, before any of its rows. */
  readonly remarks?: readonly string[];
  records(delimiter: Delimiter): Iterable<CsvItem>;
}

/** A file that cannot be read as it is, and what would put it right. */
export interface Unread {
  readonly problem: LogProblem;
}

/** Or the reason why it is none. */
export const textSource = (source: string | Uint8Array): LogSource | Unread => {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  if (bytes.length === 0) return unread('the log is empty');
  if (bytes.length > limits.logMaximum) {
    return unread(`the log has ${bytes.length} bytes; at most ${limits.logMaximum} are read, so cut it into parts`);
  }
  if (isOldWorkbook(bytes)) {
    return unread(
      'this is a workbook of before 2007 (.xls), or one with a password; open it and save the sheet as .xlsx or CSV, without a password',
    );
  }
  const encoding = encodingOf(bytes);
  return {
    written: encodingNames[encoding],
    encoding,
    delimiters,
    records: (delimiter) => csvRecords(bytes, delimiter, encoding, 'kept'),
  };
};

export const unread = (message: string): Unread => ({ problem: { message } });

/** The signature of a compound file, in which spreadsheets were kept before 2007 and are kept with a password since. */
export const isOldWorkbook = (bytes: Uint8Array): boolean =>
  [0xd0, 0xcf, 0x11, 0xe0].every((byte, index) => bytes[index] === byte);
