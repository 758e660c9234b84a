import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { type LogMapping, readLog } from '../../../server/wire/log-file.ts';
import { logProbe } from '../../support/log-reading.ts';

const two: LogMapping = { probes: [logProbe('T1'), logProbe('T2')], unit: 'C' };
const lines = (...rows: readonly string[]): string => `${rows.join('\n')}\n`;
const messages = (text: string, mapping: LogMapping = two): readonly string[] =>
  readLog(text, mapping).problems.map(({ line, message }) => (line === undefined ? message : `${line}: ${message}`));

describe('columns', () => {
  const text = lines('Time,A,B,C', '0,1,2,3', '1,1,2,3');
  it('are mapped by name, and what is not named is left out and told', () => {
    const log = readLog(text, { ...two, columns: { B: 'T1', C: 'T2' } });
    expect(log.problems).toEqual([]);
    expect(log.remarks).toEqual([{ line: 1, message: 'left out: A' }]);
    expect([...log.scans][0]?.values.map(({ temperature }) => temperature)).toEqual([2000, 3000]);
  });

  it.each([
    [
      'a probe without a column',
      lines('Time,T1', '0,1', '1,2'),
      two,
      /^1: no column is mapped to probe "T2"; the columns are "Time", "T1"$/,
    ],
    ['a column without a probe', lines('Time,T1,T2,T3', '0,1,2,3'), two, /^1: column "T3" match no probe/],
    [
      'a mapped column that is not there',
      text,
      { ...two, columns: { X: 'T1', B: 'T2' } },
      /^1: there is no column "X"/,
    ],
    [
      'a mapping to no probe',
      text,
      { ...two, columns: { A: 'T1', B: 'T2', C: 'T9' } },
      /^1: column "C" is mapped to "T9"/,
    ],
    [
      'two columns for a probe',
      text,
      { ...two, columns: { A: 'T1', B: 'T1', C: 'T2' } },
      /^1: two columns are mapped to probe T1/,
    ],
    ['the same header twice', lines('Time,T1,T1,T2', '0,1,2,3'), two, /^1: two columns are headed "T1"/],
    ['a time column that is not there', text, { ...two, timeColumn: 'When' }, /^1: there is no time column "When"/],
    [
      'the time as a probe',
      text,
      { ...two, columns: { Time: 'T1', B: 'T2' } },
      /^1: the time column cannot be a probe/,
    ],
    [
      'what is no temperature',
      lines('Time,T1 (mV),T2', '0,300,20'),
      two,
      /^1: this column is in "mV"; only temperatures are read/,
    ],
    [
      'a K that is kelvin or a type',
      lines('Time,T1,T2', 's,K,C', '0,300,20'),
      { probes: two.probes },
      /^2: "K" can be kelvin or a thermocouple of type K/,
    ],
    [
      'a unit that stands nowhere',
      text,
      { ...two, columns: { A: 'T1', B: 'T2' }, unit: undefined },
      /^1: no unit is stated/,
    ],
    [
      'a zone that is none',
      text,
      { ...two, columns: { A: 'T1', B: 'T2' }, zone: 'Mars/Base' },
      /^"Mars\/Base" is no time zone/,
    ],
    ['an unknown unit of time', lines('Time,T1,T2', 'ticks,C,C', '0,300,20'), two, /^2: "ticks" is not a unit of time/],
  ] as const)('%s is refused by name', (_, log, mapping, problem) => {
    expect(messages(log, mapping).join('\n')).toMatch(new RegExp(problem.source, 'm'));
    expect([...readLog(log, mapping).scans]).toEqual([]);
  });
});

describe('time', () => {
  it('that stands or goes back is told with its line, and the row is left out', () => {
    const text = lines('Time,T1,T2', '0,1,1', '10,1,1', '10,1,2', '5,1,1', '20,1,1');
    expect(messages(text)).toEqual([
      '4: the time "10" is the same as that of line 3; rows must go forward in time',
      '5: the time "5" is earlier than that of line 3; rows must go forward in time',
    ]);
    expect([...readLog(text, two).scans].map(({ ticks }) => ticks)).toEqual([0, 10_000, 20_000]);
  });

  it('without an offset asks for it', () => {
    const text = lines('Time,T1,T2', '2026-11-25 14:00:00,1,1', '2026-11-25 14:00:10,1,1');
    expect(messages(text)[0]).toMatch(/^2: .*state the offset of this file/);
    expect(readLog(text, { ...two, offsetMinutes: 60 })).toMatchObject({
      problems: [],
      timeForm: 'local',
      firstAt: Date.UTC(2026, 10, 25, 13),
    });
  });

  it('keeps its form', () => {
    const text = lines('Time,T1,T2', '2026-11-25T14:00:00Z,1,1', '10,1,1');
    expect(messages(text)).toEqual(['3: the time "10" is written in another form than on the first row']);
  });

  it('has its median step, whatever the gaps', () => {
    const text = lines('Time,T1,T2', ...[0, 1, 2, 3, 500, 501, 502].map((second) => `${second},1,1`));
    expect(readLog(text, two).periodMilliseconds).toBe(1000);
  });
});

describe('files that are not logs', () => {
  it.each([
    ['', /the log is empty/],
    ['hello\n', /there is no header/],
    ['Time,T1,T2\n', /header and no rows/],
    ['Time,T1,T2\n0,1,1\n', /one row; its period/],
    ['Time,T1,T2\n0,1,1\n1,1\n2,1,1\n', /3: this row has 2 fields and the header 3/],
    ['Time,T1,T2\n0,1,1\n1,5,1,5,1,5\n2,1,1\n', /3: this row has 6 fields .* decimal comma/],
    ['Time,T1,T2\n0,"1,1\n1,1,1\n', /2: a quote is opened here and never closed/],
    ['Time,T1,T2\n0,1"0",1\n1,1,1\n', /2: the quotes of this line do not pair/],
  ])('%j', (text, problem) => {
    expect(messages(text).join('\n')).toMatch(problem);
  });

  it('leaves out a last row that was cut off, and says so', () => {
    const log = readLog('Time,T1,T2\n0,1,1\n1,1,1\n2,1', two);
    expect(log.problems).toEqual([]);
    expect(log.rows).toBe(2);
    expect(log.skipped).toEqual([{ line: 4, message: 'the file ends in the middle of this row, which was left out' }]);
  });
});

describe('bounds', () => {
  it('on the bytes of a log', () => {
    const zeros = new Uint8Array(limits.logMaximum + 1);
    expect(readLog(zeros, two).problems[0]?.message).toMatch(/at most 200000000 are read/);
  });

  it('on one record, so that a line without end or an open quote cannot grow memory', () => {
    const endless = `Time,T1,T2\n0,1,${'1'.repeat(limits.importRecordMaximum * 3)}`;
    expect(messages(endless)[0]).toMatch(/^2: this record is longer than 64000 characters/);
    const open = `Time,T1,T2\n0,"${'1,1\n'.repeat(limits.importRecordMaximum)}`;
    expect(messages(open)[0]).toMatch(/this record is longer than 64000 characters; is a quote left open/);
  });

  it('on the problems that are told', () => {
    const rows = Array.from({ length: limits.importProblemsMaximum + 50 }, () => 'x,1,1');
    const { problems } = readLog(lines('Time,T1,T2', ...rows), two);
    expect(problems).toHaveLength(limits.importProblemsMaximum + 1);
    expect(problems.at(-1)?.message).toBe('and 50 more');
  });

  it('on the words that are remarked', () => {
    const rows = Array.from({ length: limits.importProblemsMaximum + 50 }, (_, index) => `${index},w${index},1`);
    expect(readLog(lines('Time,T1,T2', ...rows), two).remarks).toHaveLength(limits.importProblemsMaximum);
  });

  it('cuts nothing where a chunk of the file ends inside a character, a row or a line end', () => {
    const rows = Array.from({ length: 9000 }, (_, index) => `${index};${index % 100},5;"µ ${index}"`);
    const text = `Time;T1;µ\r\n${rows.join('\r\n')}\r\n`;
    const log = readLog(text, { probes: [logProbe('T1')], unit: 'C', leaveOut: ['µ'] });
    expect(log.problems).toEqual([]);
    expect(log.rows).toBe(9000);
    let index = 0;
    for (const { values } of log.scans) {
      expect(values[0]?.temperature).toBe((index % 100) * 1000 + 500);
      index += 1;
    }
  });
});
