/** Where the rows of a log come from: text cut at a delimiter, or the cells of a workbook. Both are walked as often as needed. */
import { limits } from '../measure/limits.ts';
import { type CsvItem, csvRecords, type Delimiter, delimiters } from './csv-records.ts';
import { type Encoding, encodingNames, encodingOf } from './text-encoding.ts';

export interface LogSource {
  /** In words, for whoever looks at how the file was read. */
  readonly written: string;
  readonly encoding: Encoding | 'workbook';
  /** Ways to cut it into records; a workbook has one. */
  readonly delimiters: readonly Delimiter[];
  records(delimiter: Delimiter): Iterable<CsvItem>;
}

/** Or the reason why it is none. */
export const textSource = (source: string | Uint8Array): LogSource | string => {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  if (bytes.length === 0) return 'the log is empty';
  if (bytes.length > limits.logMaximum) {
    return `the log has ${bytes.length} bytes; at most ${limits.logMaximum} are read, so cut it into parts`;
  }
  if (isOldWorkbook(bytes)) {
    return 'this is a document of an old spreadsheet program; open it there and save the sheet as CSV';
  }
  if (isZip(bytes)) {
    return 'this is a workbook or an archive; open it and save the sheet as CSV, which keeps what its cells show';
  }
  const encoding = encodingOf(bytes);
  return {
    written: encodingNames[encoding],
    encoding,
    delimiters,
    records: (delimiter) => csvRecords(bytes, delimiter, encoding, 'kept'),
  };
};

/** Local file header of a zip, which a workbook of today is. */
const isZip = (bytes: Uint8Array): boolean => [0x50, 0x4b, 3, 4].every((byte, index) => bytes[index] === byte);

/** The signature of a compound file, in which spreadsheets were kept before 2007. */
const isOldWorkbook = (bytes: Uint8Array): boolean =>
  [0xd0, 0xcf, 0x11, 0xe0].every((byte, index) => bytes[index] === byte);
