import { expect, test } from 'vitest';
import { readConnection } from '../../../server/weld/connection/connection.ts';
import { connectionOf, emptyDraft } from '../../../web/pages/instruments/draft.ts';
import { type Draft, type EntryName, entryIn, entryProblem } from '../../../web/pages/instruments/entries.ts';

const serial: Draft = { port: 'COM3', baud: '9600', parity: 'even', stopBits: '1' };
const modbus: Draft = {
  ...emptyDraft,
  name: 'Bay 2',
  board: 'TC',
  addresses: '3 4',
  registers: 'input',
  firstRegister: '1',
  register: '10',
  number: 'float32',
  words: 'low first',
  scale: '0,1',
  unit: 'C',
  rawFault: '7fc00000',
  channels: '2',
  thermocouple: 'K',
};
const lines: Draft = {
  ...emptyDraft,
  ...serial,
  kind: 'text lines',
  name: 'Meter',
  board: 'M',
  dataBits: '8',
  lineUnit: 'F',
  decimal: ',',
  thermocouple: 'J',
};

test.each([
  ['modbus rtu', { ...modbus, ...serial, kind: 'modbus rtu' }],
  ['modbus tcp', { ...modbus, kind: 'modbus tcp', host: '192.0.2.4', tcpPort: '502' }],
  ['lines by a pattern', { ...lines, pattern: 'T={1}', query: 'R?\\r\\n' }],
  ['lines with a check value', { ...lines, pattern: 'T={1}', checkKind: 'xor', checkBehind: '*', checkFrom: '$' }],
  ['lines by columns', { ...lines, separator: ';', column: '2', channels: '3' }],
  ['lines from the network', { ...lines, line: 'network', host: 'meter', tcpPort: '4001', pattern: 'T={1}' }],
  [
    'files',
    {
      ...emptyDraft,
      kind: 'csv folder',
      name: 'L',
      board: 'L',
      folder: '/logs',
      files: '*.csv',
      columns: 'TC 1; TC 2',
      thermocouple: 'K',
      decimal: ',',
    },
  ],
  [
    'files with times that could be misread',
    {
      ...{ ...emptyDraft, kind: 'csv folder', name: 'L', board: 'L', folder: '/logs', files: '*.csv', columns: 'TC 1' },
      ...{
        thermocouple: 'K',
        decimal: ',',
        order: 'day month year',
        clock: 'time of day',
        numbers: 'elapsed',
        timeColumn: 'Zeit',
      },
    },
  ],
])('%s: what was entered is a connection', (_what, draft) => {
  expect(readConnection(connectionOf(draft as Draft))).not.toHaveProperty('problems');
});

test('modules of one kind stand one behind the other, each with its own name and registers', () => {
  expect(connectionOf({ ...modbus, ...serial, kind: 'modbus rtu' }).slaves).toMatchObject([
    {
      board: 'TC-3',
      address: 3,
      channels: [{ register: 10, scale: 0.1, faults: [{ raw: '7FC00000' }] }, { register: 12 }],
    },
    { board: 'TC-4', address: 4 },
  ]);
});

test('what is empty is asked for by the name of its field, and nothing that could be misread is assumed', () => {
  for (const kind of ['modbus rtu', 'modbus tcp', 'text lines', 'csv folder']) {
    const draft = { ...emptyDraft, kind };
    const result = readConnection(connectionOf(draft));
    const asked = 'problems' in result ? result.problems.map(({ field }) => field) : [];
    expect(asked.some((field) => /unit$|decimal$/.test(field))).toBe(true);
    for (const field of asked) expect(entryIn(draft, field), field).toBeDefined();
  }
  const wrong = readConnection(connectionOf({ ...modbus, ...serial, kind: 'modbus rtu', baud: 'fast' }));
  expect(wrong).toMatchObject({ problems: [{ field: 'baud', found: 'the text "fast"' }] });
});

/** What the page says of the entry. */
const said = (draft: Draft, name: EntryName): string | undefined => {
  const result = readConnection(connectionOf(draft));
  const wrong = 'problems' in result ? result.problems.find(({ field }) => entryIn(draft, field) === name) : undefined;
  return wrong && entryProblem(draft, name, wrong);
};

test('what is no number of channels is told, and never taken for another number', () => {
  const draft = { ...modbus, ...serial, kind: 'modbus rtu' };
  for (const channels of ['20', '0', '2,5', 'two', ''])
    expect(said({ ...draft, channels }, 'channels')).toBe(
      `found ${channels === '' ? 'nothing' : `"${channels}"`}; wanted: how many are read, a whole number from 1 to 16`,
    );
  expect(said({ ...lines, kind: 'text lines', pattern: 'T={1}', channels: '2' }, 'channels')).toContain('{2}');
});

test('what is wrong is told by what was typed, in its own unit', () => {
  const draft = { ...modbus, ...serial, kind: 'modbus rtu' };
  for (const seconds of ['0', '0,05', '601', '1s'])
    expect(said({ ...draft, seconds }, 'seconds')).toBe(`found "${seconds}"; wanted: seconds from 0.2 to 600`);
  expect(said({ ...draft, unit: '' }, 'unit')).toBe('nothing is chosen; choose one');
  expect(said({ ...lines, separator: 'semicolon' }, 'separator')).toContain('text of 1 character, or one of "tab"');
});
