/**
 * CSV as a spreadsheet can take it: words that it would run as a formula are marked as words, numbers are written out of
 * integers so that nothing is rounded.
 */
import { stringify } from 'csv-stringify/sync';
import { readNumber } from '../measure/number-text.ts';
import { type Instant, instant } from '../measure/quantity.ts';
import type { Source } from '../weld/entry.ts';
import { localStamp } from '../wording/time.ts';

/** What the numbers are of, in every row: a table is cut, sorted and joined with others, and a first line is soon lost. */
export interface Origin {
  readonly source: Source['kind'];
  readonly station: string;
  readonly joint: string;
  /** IANA name of the zone of its local times. */
  readonly zone: string;
}
export const originColumns = ['source', 'station', 'joint', 'time_zone'] as const;
export const originCells = ({ source, station, joint, zone }: Origin): string[] => [
  source,
  words(station),
  words(joint),
  zone,
];

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
