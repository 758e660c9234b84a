import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { ThermocoupleType } from '../../../server/measure/thermocouple.ts';
import type { Probe } from '../../../server/weld/probe.ts';
import { type LogMapping, readLog } from '../../../server/wire/log-file.ts';
import { elapsedEpoch } from '../../../server/wire/log-time.ts';

const probe = (id: string, thermocouple: ThermocoupleType = 'K'): Probe => ({
  id,
  board: 'log',
  channel: 1,
  thermocouple,
  use: 'spare',
});
const two: LogMapping = { probes: [probe('T1'), probe('T2')] };
const lines = (...rows: readonly string[]): string => `${rows.join('\n')}\n`;
const messages = (text: string, mapping: LogMapping = two): readonly string[] =>
  readLog(text, mapping).problems.map(({ line, message }) => (line === undefined ? message : `${line}: ${message}`));

describe('a plain log', () => {
  const text = lines('Time,T1,T2', '0,20.1,NaN', '10,21,-', '20,,150.0004', '35,22.5,150.0005');

  it('becomes one scan a row, in the order of the probes, with the text of each cell', () => {
    const log = readLog(text, { probes: [probe('T2'), probe('T1')] });
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
    expect(log.remarks).toEqual([{ line: 2, message: 'a row of units, passed over' }]);
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
    const scans = [...readLog(text, { probes: [probe('T1', 'T'), probe('T2', 'B')] }).scans];
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
      'date and time apart',
      lines('Date,Time,T1,T2', '25.11.2026,0:00:01,1,2'),
      two,
      /^1: date and time stand in two columns/,
    ],
    [
      'another unit in the header',
      lines('Time,T1 (°F),T2', '0,300,20'),
      two,
      /^1: this column is in "°F"; only degrees Celsius/,
    ],
    ['another unit in a row of units', lines('Time,T1,T2', 's,K,C', '0,300,20'), two, /^2: this column is in "K"/],
    ['an unknown unit of time', lines('Time,T1,T2', 'ticks,C,C', '0,300,20'), two, /^2: "ticks" is not a unit of time/],
  ] as const)('%s is refused by name', (_, log, mapping, problem) => {
    expect(messages(log, mapping).join('\n')).toMatch(new RegExp(problem.source, 'm'));
    expect([...readLog(log, mapping).scans]).toEqual([]);
  });
});

describe('time', () => {
  it('that stands or goes back is told with its line, and the row is left out', () => {
    const text = lines('Time,T1,T2', '0,1,1', '10,1,1', '10,1,1', '5,1,1', '20,1,1');
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
    ['hello\n', /not a header/],
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
    expect(log.remarks).toEqual([{ line: 4, message: 'the file ends in the middle of this row, which was left out' }]);
  });

  it('in UTF-16 are named', () => {
    expect(readLog(Buffer.from('\ufeffTime,T1\n', 'utf16le'), two).problems[0]?.message).toMatch(/save it as UTF-8/);
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
    const log = readLog(text, { probes: [probe('T1')], leaveOut: ['µ'] });
    expect(log.problems).toEqual([]);
    expect(log.rows).toBe(9000);
    let index = 0;
    for (const { values } of log.scans) {
      expect(values[0]?.temperature).toBe((index % 100) * 1000 + 500);
      index += 1;
    }
  });
});
