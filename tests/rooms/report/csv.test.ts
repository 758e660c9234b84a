/** Readings as CSV: exact numbers, documented columns, and no cell that a spreadsheet would run. */
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measuredOverTime } from '../../../server/judgement/measuring/over-time.ts';
import { type DeciMicrovolt, instant, type MilliCelsius, milliseconds } from '../../../server/measure/quantity.ts';
import { readingColumns, readingsCsv } from '../../../server/report/csv.ts';
import { passColumns, passesCsv } from '../../../server/report/passes-csv.ts';
import { jointSchema } from '../../../server/weld/joint.ts';
import type { Scan, ScanValue } from '../../../server/weld/scan.ts';
import { reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

const at = Date.UTC(2026, 9, 25, 0, 59, 59, 250);
const scan = (values: readonly ScanValue[], change: Partial<Scan> = {}): Scan => ({
  board: 'PB-0041',
  boot: 3,
  sequence: 17,
  ticks: milliseconds(123_456),
  measuredAt: instant(at),
  arrivedAt: instant(at + 30),
  late: false,
  inputs: 5,
  values,
  ...change,
});
const rowsOf = (scans: Iterable<Scan>, zone = 'Europe/Warsaw'): Record<string, string>[] =>
  parse([...readingsCsv(scans, fixtureJoint(), from(zone), plain)].join(''), { columns: true });
const plain = measuredOverTime([]);
const from = (zone: string) => ({ source: 'simulated', station: 'Bay 2', joint: 'ring-seam-4', zone }) as const;
const text = (words: string): ScanValue => ({ probe: 'Z1', quality: 'no reading', raw: { form: 'text', text: words } });

describe('readings as CSV', () => {
  it('writes one row a value with both times, the raw number and where it came from', () => {
    const [voltage, fault] = rowsOf([
      scan([
        {
          probe: 'Z1',
          quality: 'good',
          temperature: -1_005 as MilliCelsius,
          raw: { form: 'voltage', deciMicrovolts: -391 as DeciMicrovolt, coldJunction: 23_070 as MilliCelsius },
        },
        { probe: 'Z2', quality: 'open', raw: { form: 'none' } },
      ]),
    ]);
    expect(voltage).toEqual({
      source: 'simulated',
      station: 'Bay 2',
      joint: 'ring-seam-4',
      time_zone: 'Europe/Warsaw',
      time_utc: '2026-10-25T00:59:59.250Z',
      time_local: '2026-10-25T02:59:59.250+02:00',
      probe: 'Z1',
      use: 'zone',
      quality: 'good',
      read_celsius: '-1.005',
      correction_kelvin: '0.000',
      temperature_celsius: '-1.005',
      expanded_uncertainty_kelvin: '',
      raw_form: 'voltage',
      raw_microvolts: '-39.1',
      cold_junction_celsius: '23.070',
      raw_celsius: '',
      raw_text: '',
      board: 'PB-0041',
      channel: '1',
      boot: '3',
      sequence: '17',
      board_milliseconds: '123456',
      arrived_utc: '2026-10-25T00:59:59.280Z',
      sent_again: 'no',
      inputs: '5',
    });
    expect(fault).toMatchObject({
      probe: 'Z2',
      quality: 'open',
      temperature_celsius: '',
      raw_form: 'none',
      raw_microvolts: '',
    });
  });

  it('tells the two hours apart when the clocks go back', () => {
    const again = scan([text('')], { measuredAt: instant(at + 3_600_000), late: true });
    const [, second] = rowsOf([scan([text('')]), again]);
    expect(second).toMatchObject({ time_local: '2026-10-25T02:59:59.250+01:00', sent_again: 'yes' });
  });

  it('marks text that would run as a formula, and leaves negative numbers numbers', () => {
    const typed = ['=1+1', '+cmd', '-2+3', '@sum', '\t=1', '＝1', '-5.2', '-5,2', '+7', 'NaN', 'a=b', 'Ω "x", y'];
    const kept = rowsOf([scan(typed.map(text))]).map(({ raw_text }) => raw_text);
    expect(kept).toEqual([
      "'=1+1",
      "'+cmd",
      "'-2+3",
      "'@sum",
      "'\t=1",
      "'＝1",
      '-5.2',
      '-5,2',
      '+7',
      'NaN',
      'a=b',
      'Ω "x", y',
    ]);
  });

  it('marks names of probes and boards in the same way', () => {
    const [probe] = fixtureJoint().probes;
    const joint = jointSchema.parse({ ...fixtureJoint(), probes: [{ ...probe, id: '=HYPERLINK("x")', board: '@b' }] });
    const value: ScanValue = { probe: '=HYPERLINK("x")', quality: 'no reading', raw: { form: 'none' } };
    const [row] = parse([...readingsCsv([scan([value], { board: '@b' })], joint, from('UTC'), plain)].join(''), {
      columns: true,
    }) as Record<string, string>[];
    expect(row).toMatchObject({ probe: `'=HYPERLINK("x")`, board: "'@b", channel: '1' });
  });

  it('gives any integer temperature back exactly (law)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -273_150, max: 2_000_000 }), (value) => {
        const temperature = value as MilliCelsius;
        const [row] = rowsOf(
          [scan([{ probe: 'Z1', quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } }])],
          'UTC',
        );
        expect(Math.round(Number(row!.temperature_celsius) * 1000)).toBe(value);
        expect(row!.raw_celsius).toMatch(/^-?\d+\.\d{3}$/);
      }),
      { numRuns: 50 },
    );
  });

  it('comes in pieces, each of whole rows, the head once', () => {
    const many = Array.from({ length: 1200 }, (_, index) => scan([text(`${index}`)], { sequence: index }));
    const pieces = [...readingsCsv(many, fixtureJoint(), from('UTC'), plain)];
    expect(pieces.length).toBeGreaterThan(2);
    for (const piece of pieces) expect(piece.endsWith('\r\n')).toBe(true);
    expect(pieces.join('').split('\r\n').length).toBe(1202);
    expect(pieces.join('').match(/time_utc/g)).toHaveLength(1);
  });

  it('has its head even without a reading', () => {
    expect([...readingsCsv([], fixtureJoint(), from('UTC'), plain)].join('')).toBe(`${readingColumns.join(',')}\r\n`);
  });

  it('has every column documented, in the same order, and no other', () => {
    expect([...ofEvery(), ...documented('Readings')]).toEqual([...readingColumns]);
  });
});

describe('passes as CSV', () => {
  const hard = { voltage_volt: '24.5', current_ampere: '210', travel_mm_per_second: '3.2' };
  const facts = reportFacts({
    joint: fixtureJoint({ process: '135' }),
    passes: 2,
    extraActs: [
      [
        170,
        '=cmd',
        {
          kind: 'pass details',
          pass: '1',
          volts: 24.5,
          amperes: 210,
          millimetresPerSecond: 3.2,
          batch: '=HYPERLINK("x")',
          stops: 'at 40 mm, cleaned',
        },
      ],
    ],
  });
  const rows: Record<string, string>[] = parse(passesCsv(facts.assessment, facts.joint, from('Europe/Warsaw')), {
    columns: true,
  });

  it('writes one row a pass with its numbers, what was measured and how it was judged', () => {
    expect(rows.map(({ pass }) => pass)).toEqual(facts.assessment.passes.map(({ pass }) => pass));
    const [first] = facts.assessment.passes;
    expect(rows[0]).toMatchObject({ ...hard, struck: 'no', welder: first!.welder, stops: 'at 40 mm, cleaned' });
    // k 0.8 of process 135 times U I / v, by hand.
    expect(Number(rows[0]!.energy_kilojoule_per_mm)).toBeCloseTo((0.8 * 24.5 * 210) / 3.2 / 1000, 6);
    expect(Number(rows[0]!.coldest_at_start_celsius) * 1000).toBe(first!.coldestAtStart!.temperature);
    expect(rows[0]!.began_local).toMatch(/\+01:00$/);
  });

  it('leaves empty what nobody entered, and writes no formula', () => {
    expect(rows[1]).toMatchObject({ voltage_volt: '', energy_kilojoule_per_mm: '', consumable_batch: '' });
    expect(rows[0]!.consumable_batch).toBe(`'=HYPERLINK("x")`);
  });

  it('has every column documented, in the same order, and no other', () => {
    expect([...ofEvery(), ...documented('Passes')].toSorted()).toEqual(passColumns.toSorted());
  });
});

const ofEvery = () => documented('In every row of readings and passes');

/** Of that heading; several may share a row. */
function documented(heading: string): string[] {
  const part = readFileSync(new URL('../../../server/report/COLUMNS.md', import.meta.url), 'utf8')
    .split(/^## /m)
    .find((each) => each.startsWith(heading))!;
  return part
    .split('\n')
    .flatMap((line) =>
      [...(/^\|([^|]+)\|/.exec(line)?.[1] ?? '').matchAll(/`([a-z_0-9]+)`/g)].map(([, name]) => name!),
    );
}
