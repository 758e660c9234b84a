/**
 * CSV as a spreadsheet can take it: words that it would run as a formula are marked as words, numbers are written out of
 * integers so that nothing is rounded.
 */
import { stringify } from 'csv-stringify/sync';
import { readNumber } from '../measure/number-text.ts';
import { type Instant, instant } from '../measure/quantity.ts';
import { localStamp } from '../wording/time.ts';

/** RFC 4180: CRLF between rows, quotes only where needed. */
export const text = (rows: readonly (readonly string[])[]): string =>
  stringify([...rows], { record_delimiter: '\r\n' });

/** A spreadsheet runs a cell that begins so. A plain number is no danger and stays one, its sign included. */
const startsFormula = /^[\s]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20\t\r]/u;
export const words = (value: string): string =>
  startsFormula.test(value) && readNumber(value).kind !== 'number' ? `'${value}` : value;

/** An integer counted in the last of its decimals, written exactly. */
export const decimal = (value: number, decimals: number): string => {
  const digits = Math.abs(value)
    .toString()
    .padStart(decimals + 1, '0');
  return `${value < 0 ? '-' : ''}${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
};

export const utc = (at: Instant): string => localStamp(instant(at), 'UTC').replace('+00:00', 'Z');
