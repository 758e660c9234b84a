/**
 * All readings as CSV, one row a value, in the order they are handed in. Columns: COLUMNS.md. Text comes in pieces so that a long job need not be held in memory.
 */
import type { MeasuredOverTime } from '../judgement/measuring/over-time.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import { type Raw, type Scan, type ScanValue, saidBy } from '../weld/scan.ts';
import { localStamp } from '../wording/time.ts';
import { decimal, type Origin, originCells, originColumns, text, utc, words } from './csv-text.ts';

export const readingColumns = [
  ...originColumns,
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
  origin: Origin,
  measured: MeasuredOverTime,
): Iterable<string> {
  const probes = new Map(joint.probes.map((probe) => [probe.id, probe]));
  const first = originCells(origin);
  let rows: string[][] = [[...readingColumns]];
  for (const scan of scans) {
    const times = [utc(scan.measuredAt), localStamp(scan.measuredAt, origin.zone)];
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
        ...first,
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

const raw = ({ raw: from }: ScanValue): string[] => [from.form, ...numbers(from)];

const said = (from: Raw): string => words(saidBy(from) ?? '');

const numbers = (from: Raw): [microvolts: string, junction: string, celsius: string, text: string] => {
  switch (from.form) {
    case 'voltage':
      return [decimal(from.deciMicrovolts, 1), decimal(from.coldJunction, 3), '', said(from)];
    case 'temperature':
      return ['', '', decimal(from.reported, 3), said(from)];
    case 'text':
      return ['', '', '', words(from.text)];
    case 'none':
      return ['', '', '', said(from)];
  }
};
