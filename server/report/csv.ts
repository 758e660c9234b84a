/**
 * All readings as CSV, one row a value, in the order they are handed in. Columns: COLUMNS.md. Numbers are
 * written out of integers, so that nothing is rounded; words that a spreadsheet would take for a formula are
 * marked as words. Text comes in pieces so that a long job need not be held in memory.
 */
import { stringify } from 'csv-stringify/sync';
import type { MeasuredOverTime } from '../judgement/measuring/over-time.ts';
import { readNumber } from '../measure/number-text.ts';
import { type Instant, instant } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import type { Raw, Scan, ScanValue } from '../weld/scan.ts';
import { localStamp } from '../wording/time.ts';

export const readingColumns = [
  'time_utc',
  'time_local',
  'probe',
  'use',
  'quality',
  'read_celsius',
  'correction_kelvin',
  'temperature_celsius',
  'expanded_uncertainty_kelvin',
  'raw_form',
  'raw_microvolts',
  'cold_junction_celsius',
  'raw_celsius',
  'raw_text',
  'board',
  'channel',
  'boot',
  'sequence',
  'board_milliseconds',
  'arrived_utc',
  'sent_again',
  'inputs',
] as const;

/** Rows in one piece of text. */
const rowsPerPiece = 500;

export function* readingsCsv(
  scans: Iterable<Scan>,
  joint: Joint,
  zone: string,
  measured: MeasuredOverTime,
): Iterable<string> {
  const probes = new Map(joint.probes.map((probe) => [probe.id, probe]));
  let rows: string[][] = [[...readingColumns]];
  for (const scan of scans) {
    const times = [utc(scan.measuredAt), localStamp(scan.measuredAt, zone)];
    const frame = [
      `${scan.boot}`,
      `${scan.sequence}`,
      `${scan.ticks}`,
      utc(scan.arrivedAt),
      scan.late ? 'yes' : 'no',
      `${scan.inputs}`,
    ];
    for (const value of scan.values) {
      const probe = probes.get(value.probe);
      rows.push([
        ...times,
        words(value.probe),
        probe?.use ?? '',
        value.quality,
        ...judged(value, scan.measuredAt, measured),
        ...raw(value),
        words(scan.board),
        probe === undefined ? '' : `${probe.channel}`,
        ...frame,
      ]);
    }
    if (rows.length < rowsPerPiece) continue;
    yield text(rows);
    rows = [];
  }
  if (rows.length > 0) yield text(rows);
}

/** As the instrument gave it, what its calibration adds, the sum, and how uncertain that is. */
const judged = ({ probe, temperature }: ScanValue, at: Instant, measured: MeasuredOverTime): string[] => {
  if (temperature === undefined) return ['', '', '', ''];
  const sum = measured.correct(probe, at, temperature);
  const uncertainty = measured.expandedUncertainty(probe, at, temperature);
  return [
    decimal(temperature, 3),
    decimal(sum - temperature, 3),
    decimal(sum, 3),
    uncertainty === undefined ? '' : decimal(uncertainty, 3),
  ];
};

/** RFC 4180: CRLF between rows, quotes only where needed. */
const text = (rows: readonly (readonly string[])[]): string => stringify([...rows], { record_delimiter: '\r\n' });

const raw = ({ raw: from }: ScanValue): string[] => [from.form, ...numbers(from)];

const numbers = (from: Raw): [microvolts: string, junction: string, celsius: string, text: string] => {
  switch (from.form) {
    case 'voltage':
      return [decimal(from.deciMicrovolts, 1), decimal(from.coldJunction, 3), '', ''];
    case 'temperature':
      return ['', '', decimal(from.reported, 3), ''];
    case 'text':
      return ['', '', '', words(from.text)];
    case 'none':
      return ['', '', '', ''];
  }
};

/** A spreadsheet runs a cell that begins so. A plain number is no danger and stays one, its sign included. */
const startsFormula = /^[\s]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20\t\r]/u;
const words = (value: string): string =>
  startsFormula.test(value) && readNumber(value).kind !== 'number' ? `'${value}` : value;

/** An integer counted in the last of its decimals, written exactly. */
const decimal = (value: number, decimals: number): string => {
  const digits = Math.abs(value)
    .toString()
    .padStart(decimals + 1, '0');
  return `${value < 0 ? '-' : ''}${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
};

const utc = (at: Instant): string => localStamp(instant(at), 'UTC').replace('+00:00', 'Z');
