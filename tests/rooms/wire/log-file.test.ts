import { describe, expect, it } from 'vitest';
import type { Instant } from '../../../server/measure/quantity.ts';
import { type LogMapping, readLog } from '../../../server/wire/log-file.ts';
import { elapsedEpoch } from '../../../server/wire/log-time.ts';
import { logProbe } from '../../support/log-reading.ts';

const two: LogMapping = { probes: [logProbe('T1'), logProbe('T2')], unit: 'C' };
const lines = (...rows: readonly string[]): string => `${rows.join('\n')}\n`;

describe('a plain log', () => {
  const text = lines('Time,T1,T2', '0,20.1,NaN', '10,21,-', '20,,150.0004', '35,22.5,150.0005');

  it('becomes one scan a row, in the order of the probes, with the text of each cell', () => {
    const log = readLog(text, { probes: [logProbe('T2'), logProbe('T1')], unit: 'C' });
    expect(log.problems).toEqual([]);
    const scans = [...log.scans];
    expect(scans[0]).toEqual({
      board: 'log',
      boot: 1,
      sequence: 0,
      ticks: 0,
      measuredAt: elapsedEpoch,
      arrivedAt: elapsedEpoch,
      late: false,
      inputs: 0,
      values: [
        { probe: 'T2', quality: 'no reading', raw: { form: 'text', text: 'NaN' } },
        { probe: 'T1', quality: 'good', temperature: 20_100, raw: { form: 'text', text: '20.1' } },
      ],
    });
    expect(scans[2]?.values[1]).toEqual({ probe: 'T1', quality: 'no reading', raw: { form: 'none' } });
    expect(scans.map(({ values }) => values[0]?.temperature)).toEqual([undefined, undefined, 150_000, 150_001]);
    expect(scans.map(({ sequence, ticks }) => [sequence, ticks])).toEqual([
      [0, 0],
      [1, 10_000],
      [2, 20_000],
      [3, 35_000],
    ]);
  });

  it('tells rows, span and median step', () => {
    expect(readLog(text, two)).toMatchObject({
      rows: 4,
      periodMilliseconds: 10_000,
      firstAt: elapsedEpoch,
      lastAt: elapsedEpoch + 35_000,
      timeForm: 'elapsed',
    });
  });

  it('can be walked again and gives the same', () => {
    const { scans } = readLog(text, two);
    expect([...scans]).toEqual([...scans]);
  });

  it('begins elapsed time where it is told', () => {
    const start = 1_795_000_000_000 as Instant;
    expect(readLog(text, { ...two, start }).firstAt).toBe(start);
  });
});

describe('the ways that instruments write', () => {
  it.each([
    ['semicolons and decimal commas', 'Time;T1;T2\r\n0,5;20,1;21\r\n1,5;1,5E+02;22\r\n'],
    ['tabs', 'Time\tT1\tT2\n0,5\t20,1\t21\n1,5\t150\t22\n'],
    ['quotes and a byte order mark', '\ufeff"Time","T1","T2"\n"0.5","20.1","21"\n"1.5","150",22\n'],
    ['quotes around decimal commas', 'Time,T1,T2\n"0,5","20,1",21\n"1,5","150,0",22\n'],
    ['a spreadsheet line, comments, blank lines', 'sep=;\nTime;T1;T2\n# begun\n\n0,5;20,1;21\n;;\n1,5;150;22\n'],
    ['a trailing delimiter', 'Time,T1,T2\n0.5,20.1,21,\n1.5,150,22,\n'],
  ])('%s', (_, text) => {
    const log = readLog(text, two);
    expect(log.problems).toEqual([]);
    expect([...log.scans].map(({ measuredAt, values }) => [measuredAt - elapsedEpoch, values[0]?.temperature])).toEqual(
      [
        [500, 20_100],
        [1500, 150_000],
      ],
    );
  });

  it('passes over a row of units and says so; the unit of time counts', () => {
    const log = readLog(lines('Time,T1,T2', 'min,°C,C', '0,20,21', '1,30,31'), two);
    expect(log.problems).toEqual([]);
    expect(log.skipped).toEqual([{ line: 2, message: 'a row of units' }]);
    expect(log.periodMilliseconds).toBe(60_000);
  });

  it('reads units in the header', () => {
    const log = readLog(lines('Time (min),T1 [°C],T2 (degC)', '0,20,21', '1,30,31'), two);
    expect(log.problems).toEqual([]);
    expect(log.periodMilliseconds).toBe(60_000);
  });

  it('reads the 8-bit sets of older instruments, and says so', () => {
    const bytes = Buffer.from('Time;T1 (\xb0C);T2\n0;20,5;21\n1;21,5;22\n', 'latin1');
    const log = readLog(bytes, two);
    expect(log.problems).toEqual([]);
    expect(log.remarks.map(({ message }) => message)).toEqual(['the log is not UTF-8; it was read as Windows-1252']);
    expect(log.rows).toBe(2);
  });

  it('takes the column headed as a time before a running number in front of it', () => {
    const log = readLog(lines('No.,Time,T1,T2', '1,0,20,21', '2,10,22,23'), { ...two, leaveOut: ['No.'] });
    expect(log.problems).toEqual([]);
    expect(log.periodMilliseconds).toBe(10_000);
  });
});

describe('values that are none', () => {
  it('keeps what no thermocouple can have as out of range, with its text', () => {
    const text = lines('Time,T1,T2', '0,-3.92E+12,3.32E+03', '1,1e999,1372', '2,1372.001,-200');
    const scans = [...readLog(text, two).scans];
    expect(scans[0]?.values).toEqual([
      { probe: 'T1', quality: 'out of range', raw: { form: 'text', text: '-3.92E+12' } },
      { probe: 'T2', quality: 'out of range', raw: { form: 'text', text: '3.32E+03' } },
    ]);
    expect(scans.map(({ values }) => values.map(({ quality }) => quality))).toEqual([
      ['out of range', 'out of range'],
      ['out of range', 'good'],
      ['out of range', 'good'],
    ]);
  });

  it('holds each probe to the range of its own type', () => {
    const text = lines('Time,T1,T2', '0,500,500', '1,100,100');
    const scans = [...readLog(text, { probes: [logProbe('T1', 'T'), logProbe('T2', 'B')], unit: 'C' }).scans];
    expect(scans.map(({ values }) => values.map(({ quality }) => quality))).toEqual([
      ['out of range', 'good'],
      ['good', 'out of range'],
    ]);
  });

  it('takes a word for no reading and remarks it once', () => {
    const log = readLog(lines('Time,T1,T2', '0,OPEN,20', '1,OPEN,21', '2,20,1.234.5'), two);
    expect(log.problems).toEqual([]);
    expect(log.remarks).toEqual([
      { line: 2, column: 'T1', message: '"OPEN" is not a number and counts as no reading, here and below' },
      { line: 4, column: 'T2', message: '"1.234.5" is not a number and counts as no reading, here and below' },
    ]);
    expect([...log.scans][0]?.values[0]).toEqual({
      probe: 'T1',
      quality: 'no reading',
      raw: { form: 'text', text: 'OPEN' },
    });
  });

  it('never gives minus zero', () => {
    const [scan] = readLog(lines('Time,T1,T2', '0,-0.0001,-0', '1,1,1'), two).scans;
    expect(scan?.values.map(({ temperature }) => Object.is(temperature, 0))).toEqual([true, true]);
  });
});
