/** Several logs of one job: one behind the other, side by side, over each other. */
import { describe, expect, it } from 'vitest';
import type { LogMapping } from '../../../server/wire/log-file.ts';
import { type LogSet, type NamedLog, readLogs } from '../../../server/wire/log-set.ts';
import { logProbe } from '../../support/log-reading.ts';

const two: LogMapping = { probes: [logProbe('T1'), logProbe('T2')], unit: 'C', offsetMinutes: 0 };
const at = (clock: string): string => `2026-11-25 ${clock}`;
const log = (name: string, header: string, ...rows: readonly string[]): NamedLog => ({
  name,
  source: `${[`Time,${header}`, ...rows.map((row) => at(row))].join('\n')}\n`,
});
const rowsOf = ({ scans }: LogSet) =>
  [...scans].map(({ measuredAt, board, sequence, ticks, values }) => [
    new Date(measuredAt).toISOString().slice(11, 19),
    board,
    sequence,
    ticks,
    ...values.map(({ probe, temperature }) => `${probe} ${(temperature ?? Number.NaN) / 1000}`),
  ]);

describe('logs of one logger', () => {
  const early = log('early.csv', 'T1,T2', '08:00:00,20,21', '08:00:10,22,23');
  const late = log('late.csv', 'T1,T2', '08:05:00,30,31', '08:05:10,32,33');

  it('are one run in order of time, whatever the order in which they are given', () => {
    const set = readLogs([late, early], two);
    expect(set.problems).toEqual([]);
    expect(set.remarks).toEqual([{ message: 'joined in order of time: early.csv, late.csv' }]);
    expect(rowsOf(set)).toEqual([
      ['08:00:00', 'log', 0, 0, 'T1 20', 'T2 21'],
      ['08:00:10', 'log', 1, 10_000, 'T1 22', 'T2 23'],
      ['08:05:00', 'log', 2, 300_000, 'T1 30', 'T2 31'],
      ['08:05:10', 'log', 3, 310_000, 'T1 32', 'T2 33'],
    ]);
    expect(set).toMatchObject({ rows: 4, periodMilliseconds: 10_000 });
  });

  it('may repeat each other, which is told; each time is taken once', () => {
    const again = log('again.csv', 'T1,T2', '08:00:10,22,23', '08:00:20,24,25');
    const set = readLogs([early, again], two);
    expect(set.problems).toEqual([]);
    expect(set.remarks[0]?.message).toMatch(
      /^again\.csv repeats what early\.csv holds from 2026-11-25T08:00:10\.000Z to /,
    );
    expect(rowsOf(set).map(([time]) => time)).toEqual(['08:00:00', '08:00:10', '08:00:20']);
  });

  it.each([
    ['other values', '08:00:10,99,23'],
    ['other times', '08:00:05,22,23'],
  ])('may not contradict each other: %s', (_, row) => {
    const other = log('other.csv', 'T1,T2', row, '08:00:20,24,25');
    const set = readLogs([early, other], two);
    expect(set.problems[0]?.message).toMatch(/both speak of the time .* and differ at .*; cut one of them/);
    expect(rowsOf(set)).toEqual([]);
  });
});

describe('logs of two loggers', () => {
  const north = log('north.csv', 'T1', '08:00:00,20', '08:00:10,22');
  it('run side by side, each with its own count', () => {
    const south = log('south.csv', 'T2', '08:00:05,30', '08:00:15,32');
    const set = readLogs([north, south], two);
    expect(set.problems).toEqual([]);
    expect(rowsOf(set)).toEqual([
      ['08:00:00', 'log', 0, 0, 'T1 20'],
      ['08:00:05', 'log 2', 0, 0, 'T2 30'],
      ['08:00:10', 'log', 1, 10_000, 'T1 22'],
      ['08:00:15', 'log 2', 1, 10_000, 'T2 32'],
    ]);
  });

  it('must have all probes between them', () => {
    const set = readLogs([north, log('more.csv', 'T1', '09:00:00,20', '09:00:10,22')], two);
    expect(set.problems.map(({ message }) => message)).toEqual(['no file has a column for T2']);
  });
});

describe('logs that cannot be joined', () => {
  const elapsed = (name: string): NamedLog => ({ name, source: 'Time,T1,T2\n0,1,2\n10,1,2\n' });
  it('count each from its own beginning, or only some have dates', () => {
    expect(readLogs([elapsed('a'), elapsed('b')], two).problems[0]?.message).toMatch(/each from its own beginning/);
    const dated = log('c', 'T1,T2', '08:00:00,20,21', '08:00:10,22,23');
    expect(readLogs([elapsed('a'), dated], two).problems[0]?.message).toMatch(/some have dates; they cannot be joined/);
  });
  it('leave the problems of each with its file', () => {
    const set = readLogs([elapsed('a'), { name: 'b', source: 'hello\n' }], two);
    expect(set.files.map(({ name, log }) => [name, log.problems.length])).toEqual([
      ['a', 0],
      ['b', 1],
    ]);
    expect(set.firstAt).toBeUndefined();
  });
});
