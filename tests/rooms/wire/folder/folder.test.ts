/** A folder into which another logger writes, in memory, on a clock that the test moves. */
import { afterEach, expect, test } from 'vitest';
import type { ToldValue } from '../../../../server/weld/told.ts';
import { isMeant } from '../../../../server/wire/connection/folder-session.ts';
import { type ConnectionLink, openConnection } from '../../../../server/wire/connection/open-connection.ts';
import type { WireEvent } from '../../../../server/wire/event.ts';
import { connectionIn, folderFile, outsideWith } from '../../../support/connection-files.ts';
import { createHandClock } from '../hand-clock.ts';

let link: ConnectionLink | undefined;
afterEach(() => link?.close());

const head = 'Time;TC1 (C);TC2 (C)\n';
const bench = (files: Record<string, string>, own: object = {}) => {
  const clock = createHandClock();
  const events: WireEvent[] = [];
  const bytesOf = (name: string): Uint8Array => Buffer.from(files[name]!, 'latin1');
  const written = new Map(Object.keys(files).map((name, index) => [name, index]));
  let fault: string | undefined;
  link = openConnection({
    connection: connectionIn(folderFile(own)),
    outside: outsideWith({
      files: {
        list: async () => {
          if (fault !== undefined) throw new Error(fault);
          return Object.keys(files).map((name) => ({
            name,
            size: bytesOf(name).length,
            modifiedAt: written.get(name) ?? 0,
          }));
        },
        read: async (_folder, name, from, to) => bytesOf(name).subarray(from, to),
      },
    }),
    clock,
    platform: 'linux',
    onEvent: (event) => events.push(event),
  });
  const told = () => events.flatMap((event) => (event.type === 'told' ? [event.told] : []));
  return {
    clock,
    events,
    link,
    told,
    values: () => told().map(({ values }) => values.map(short).join(' ')),
    states: () => events.flatMap((event) => (event.type === 'link' ? [`${event.state}: ${event.cause}`] : [])),
    async write(name: string, text: string) {
      files[name] = text;
      written.set(name, clock.monotonic());
      await clock.advance(1000);
    },
    fail(because: string | undefined) {
      fault = because;
    },
  };
};
const short = (value: ToldValue): string =>
  'fault' in value ? `${value.fault}(${value.said})` : 'reported' in value ? `${value.reported}(${value.said})` : '?';

test('only what comes is read, a half-written line once it is whole, at the distances of its own clock', async () => {
  const old = `${head}2026-11-28 08:00:00;20,0;21,0\n2026-11-28 08:00:01;20,1;21,1\n`;
  const { clock, write, values, told, events } = bench({ 'run-1.csv': old, 'other.txt': 'x' });
  await clock.advance(2000);
  expect(values()).toEqual([]);
  const grown = `${old}2026-11-28 08:00:02;150,5;21,1\n2026-11-28 08:00:04;150,6;`;
  await write('run-1.csv', grown);
  expect(values()).toEqual(['150500(150,5) 21100(21,1)']);
  await write('run-1.csv', `${grown}OPEN\n`);
  expect(values().slice(1)).toEqual(['150600(150,6) no reading(OPEN)']);
  const [first, second] = told();
  expect(second!.ticks - first!.ticks).toBe(2000);
  expect(events.find((event) => event.type === 'hello')).toMatchObject({
    hello: { board: 'logger', firmware: 'CSV files of another logger, temperatures as it works them out itself' },
  });
});

test('a new file is read from its beginning; rows that it repeats are taken once', async () => {
  const { clock, write, values } = bench({ 'run-1.csv': `${head}2026-11-28 08:00:00;20,0;21,0\n` });
  await clock.advance(1000);
  await write('run-1.csv', `${head}2026-11-28 08:00:00;20,0;21,0\n2026-11-28 08:00:01;30,0;31,0\n`);
  await write('run-2.csv', head);
  await write('run-2.csv', `${head}2026-11-28 08:00:02;40,0;41,0\n`);
  expect(values()).toEqual(['30000(30,0) 31000(31,0)', '40000(40,0) 41000(41,0)']);
});

test('a file that is written anew is named, and what it repeats is taken once', async () => {
  const row = (second: number): string => `2026-11-28 08:00:0${second};${second}0,0;1,0\n`;
  const { clock, write, values, link } = bench({ 'run-1.csv': `${head}${row(1)}` });
  await clock.advance(1000);
  await write('run-1.csv', `${head}${row(1)}${row(2)}`);
  await write('run-1.csv', `Other remark\n${head}${row(1)}${row(2)}${row(3)}`);
  expect(values()).toEqual(['20000(20,0) 1000(1,0)', '30000(30,0) 1000(1,0)']);
  expect(link.counts('logger').errors).toContainEqual({ what: 'file written anew', times: 1 });
});

test('a row that cannot be read is named and costs no other', async () => {
  const { clock, write, values, link } = bench({});
  await clock.advance(1000);
  await write('run-1.csv', `${head}2026-11-28 08:00:01;1,0;1,0\n`);
  await write(
    'run-1.csv',
    `${head}2026-11-28 08:00:01;1,0;1,0\n2026-11-28 08:00:02;2,0\nnonsense;;\n2026-11-28 08:00:03;3,0;1,0\n`,
  );
  expect(values()).toEqual(['1000(1,0) 1000(1,0)', '3000(3,0) 1000(1,0)']);
  expect(link.counts('logger').errors).toContainEqual({ what: 'row not read', times: 2 });
});

test('a clock that is put back an hour between two rows costs none of them', async () => {
  const { clock, write, values } = bench({});
  await clock.advance(1000);
  const first = `${head}2026-10-25 02:59:59;1,0;1,0\n`;
  await write('run-1.csv', first);
  await write(
    'run-1.csv',
    `${first}2026-10-25 02:59:59;2,0;1,0\n2026-10-25 02:00:00;3,0;1,0\n2026-10-25 02:00:01;4,0;1,0\n`,
  );
  expect(values().map((text) => text.split('(')[0])).toEqual(['1000', '2000', '3000', '4000']);
});

test('silence and a folder that is gone are a lost link, and reading goes on where it was', async () => {
  const { clock, write, values, states, fail } = bench({ 'run-1.csv': head });
  await clock.advance(1000);
  const row = (second: number): string => `2026-11-28 08:00:${second};${second},0;1,0\n`;
  await write('run-1.csv', `${head}${row(10)}`);
  expect(states().at(-1)).toBe('open: board logger answers');
  await clock.advance(4000);
  expect(states().at(-1)).toBe('lost: no new row for 3 s');
  await write('run-1.csv', `${head}${row(10)}${row(15)}`);
  expect(states().at(-1)).toBe('open: board logger answers');
  fail('EBUSY: resource busy or locked');
  await clock.advance(1000);
  expect(states().at(-1)).toContain('EBUSY');
  fail(undefined);
  await write('run-1.csv', `${head}${row(10)}${row(15)}${row(20)}${row(21)}`);
  expect(values().map((text) => text.split('(')[0])).toEqual(['10000', '15000', '20000', '21000']);
});

test('what cannot be told from the file is asked for by the name of its field', async () => {
  const { clock, write, link, values } = bench(
    {},
    { files: 'run-*.csv', channels: [{ channel: 1, thermocouple: 'K', column: 'TC1' }] },
  );
  await clock.advance(1000);
  await write('run-1.csv', 'Time;TC1\n2026-11-28 08:00:01;1,0\n');
  await write('run-1.csv', 'Time;TC1\n2026-11-28 08:00:01;1,0\n2026-11-28 08:00:02;1,0\n');
  expect(values()).toEqual([]);
  expect(link.counts('logger').last).toMatch(/unit/);
});

test('names of files', () => {
  expect(['run-1.csv', 'run-.csv', 'run-1.CSV', 'run.csv'].map((name) => isMeant('run-*.csv', name))).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(isMeant('a.csv', 'a.csv')).toBe(true);
});

test('lines above the header are told once, and are no error of each look', async () => {
  const above = `Hall 2;Workpiece 7\n${head}2026-11-28 08:00:00;20,0;21,0\n`;
  const { clock, write, values, link } = bench({ 'run-1.csv': above });
  await clock.advance(1000);
  for (let second = 1; second < 4; second += 1) {
    const rows = Array.from({ length: second }, (_, row) => `2026-11-28 08:00:0${row + 1};30,0;31,0\n`);
    await write('run-1.csv', `${above}${rows.join('')}`);
  }
  expect(values()).toHaveLength(3);
  expect(link.counts('logger').errors).toEqual([]);
});

test('a folder without a file of that name says so, and a cell without a temperature why', async () => {
  const { clock, write, states, link } = bench({ 'log-1.csv': 'x' });
  await clock.advance(4000);
  expect(states().at(-1)).toBe('refused: no file in the folder is named like run-*.csv; there is log-1.csv');
  // What is wrong next is told in its place.
  await write('run-0.csv', 'Time;TC1;TC2\n08:00:00;20,0;21,0\n');
  expect(states().at(-1)).toContain('refused: no row could be read: run-0.csv: ');
  await write('run-1.csv', `${head}2026-11-28 08:00:00;20.0;-\n`);
  expect(link.counts('logger')).toMatchObject({
    errors: [
      { what: 'file not understood', times: 1 },
      { what: 'no temperature', times: 1 },
    ],
    last: 'run-1.csv: channel 1: "20.0" is no number with the decimal mark ","',
  });
});

test('where header and connection say different units one of them is wrong, and nothing is read', async () => {
  const { clock, write, values, link } = bench({ 'run-1.csv': head }, { unit: 'F' });
  await clock.advance(1000);
  await write('run-1.csv', `${head}2026-11-28 08:00:00;20,0;21,0\n`);
  expect(values()).toEqual([]);
  expect(link.counts('logger').last).toContain(
    'by the file it is in degrees Celsius, by the connection in degrees Fahrenheit',
  );
});
