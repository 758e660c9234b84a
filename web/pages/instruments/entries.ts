/** What is entered of an instrument: each entry once, in the words of its manual, and which of them one kind asks for. */
import { thermocoupleTypes } from '../../../server/measure/thermocouple.ts';
import type { Problem } from '../../../server/screen/contract.ts';
import type { ConnectionKind } from '../../../server/weld/connection/connection.ts';

export type Draft = Readonly<Record<string, string>>;

type Choice = readonly [value: string, text: string];

export interface Entry {
  readonly label: string;
  readonly hint?: string;
  readonly isNumber?: true;
  readonly choices?: readonly Choice[];
  /** Its names in the file, where they are others than its own. */
  readonly inFile?: readonly string[];
  /** What may be entered, where the file holds it otherwise. */
  readonly allowed?: string;
}

const same = (...values: readonly string[]): readonly Choice[] => values.map((value) => [value, value]);
const degrees: readonly Choice[] = [
  ['C', '°C'],
  ['F', '°F'],
  ['K', 'kelvin'],
];

const entries = {
  name: { label: 'What people call it' },
  board: {
    label: 'Name of the instrument',
    hint: 'Probes of a joint name it as their board. Several modules get their address behind it.',
  },
  port: { label: 'Port' },
  baud: {
    label: 'Speed',
    choices: same('1200', '2400', '4800', '9600', '19200', '38400', '57600', '115200'),
  },
  parity: { label: 'Parity', choices: same('none', 'even', 'odd') },
  stopBits: { label: 'Stop bits', choices: same('1', '2') },
  dataBits: { label: 'Data bits', choices: same('8', '7') },
  host: { label: 'Address on the network', hint: 'As 192.168.4.20.' },
  tcpPort: { label: 'Port of that address', hint: '502 for Modbus.', isNumber: true },
  addresses: { label: 'Addresses of the modules', hint: 'As 3, or 3 4 5 for several alike.', inFile: ['address'] },
  registers: {
    label: 'Kind of registers',
    choices: [
      ['input', 'input (function 4)'],
      ['holding', 'holding (function 3)'],
    ],
  },
  firstRegister: { label: 'The manual counts registers from', choices: same('0', '1') },
  register: {
    label: 'Register of channel 1',
    hint: 'Without the leading 3 or 4 of its kind: 30001 is 1, 40011 is 11.',
    isNumber: true,
  },
  number: {
    label: 'Number',
    choices: [
      ['int16', '16 bits with sign'],
      ['uint16', '16 bits without sign'],
      ['int32', '32 bits with sign'],
      ['uint32', '32 bits without sign'],
      ['float32', '32 bits, floating point'],
    ],
  },
  words: { label: 'Order of its two registers', choices: same('high first', 'low first') },
  scale: { label: 'One step is worth', hint: '0.1 where 235 means 23.5.', isNumber: true },
  unit: { label: 'Unit', choices: degrees },
  lineUnit: {
    label: 'Unit',
    choices: [...degrees, ['beside each value', 'stands beside each value']],
    inFile: ['unit'],
  },
  rawFault: {
    label: 'Raw value of a broken wire',
    hint: 'Hexadecimal, as 7FFF. Open one input and look.',
    inFile: ['raw'],
  },
  textFault: { label: 'What it writes for a broken wire', inFile: ['text'] },
  channels: {
    label: 'Channels',
    isNumber: true,
    inFile: ['channels', 'channel'],
    allowed: 'how many are read, a whole number from 1 to 16',
  },
  thermocouple: { label: 'Type the instrument is set to', choices: same(...thermocoupleTypes) },
  seconds: {
    label: 'Read every, seconds',
    hint: 'Where it writes by itself: how often it does.',
    isNumber: true,
    inFile: ['periodMilliseconds'],
    allowed: 'seconds from 0.2 to 600',
  },
  query: { label: 'What is sent to ask', hint: 'Empty where it speaks by itself. \\r and \\n are ends of lines.' },
  pattern: { label: 'How a line is written', hint: 'T1={1} T2={2}, or CH{channel}: {value}; {*} is anything.' },
  lineEnd: {
    label: 'Its lines end with',
    hint: 'Empty where the manual says nothing else.',
    choices: [
      ['LF', 'LF, or CR LF'],
      ['CR', 'CR alone'],
    ],
  },
  separator: { label: 'or: what stands between columns', hint: 'One character, tab or blanks.' },
  column: { label: 'Column of channel 1', hint: 'The first is 1.', isNumber: true },
  checkKind: {
    label: 'Check value at the end of a line',
    hint: 'Empty where there is none.',
    choices: [
      ['xor', 'xor, two digits'],
      ['sum', 'sum, two digits'],
      ['crc-16 modbus', 'CRC-16 as of Modbus, four digits'],
      ['crc-16 ccitt', 'CRC-16 CCITT, four digits'],
    ],
    inFile: ['check', 'kind'],
  },
  checkBehind: { label: 'What stands before it', hint: 'As *.', inFile: ['behind'] },
  checkFrom: { label: 'First text that it does not count', hint: 'As $; empty where it counts all.', inFile: ['from'] },
  decimal: {
    label: 'Decimal mark',
    choices: [
      ['.', 'point'],
      [',', 'comma'],
    ],
  },
  folder: { label: 'Folder on the machine of the station' },
  files: { label: 'Names of the files', hint: 'With * for what differs: run-*.csv' },
  columns: {
    label: 'Headers of the columns',
    hint: 'In the order of channels, parted by semicolons: TC 1; TC 2',
    inFile: ['column'],
  },
  order: {
    label: 'Dates, where they can be misread',
    choices: same('year month day', 'day month year', 'month day year'),
  },
  clock: {
    label: 'Times, where they can be misread',
    hint: 'Asked for as clock.',
    choices: [
      ['time of day', 'time of day'],
      ['elapsed', 'elapsed h:mm:ss'],
      ['elapsed h:mm', 'elapsed h:mm'],
      ['elapsed mm:ss', 'elapsed mm:ss'],
    ],
  },
  numbers: {
    label: 'Times that are plain numbers',
    hint: 'Asked for as numbers.',
    choices: same('elapsed', 'spreadsheet days', 'unix seconds', 'unix milliseconds'),
  },
  timeColumn: { label: 'Header of the time', hint: 'Empty where only one column can be it.' },
} as const satisfies Record<string, Entry>;

export type EntryName = keyof typeof entries;

export const entryOf = (name: EntryName): Entry => entries[name];

const called = ['name', 'board'] as const;
const serial = ['port', 'baud', 'parity', 'stopBits'] as const;
const address = ['host', 'tcpPort'] as const;
/** Left empty they are found out of the files, and asked for where those have two readings. */
const timesOf = ['timeColumn', 'order', 'clock', 'numbers'] as const;
const read = ['channels', 'thermocouple', 'seconds'] as const;

/** In the order in which a manual tells them. */
export function entriesFor(draft: Draft): readonly EntryName[] {
  switch (draft.kind as ConnectionKind) {
    case 'modbus rtu':
      return [...called, ...serial, ...registersOf(draft)];
    case 'modbus tcp':
      return [...called, ...address, ...registersOf(draft)];
    case 'text lines':
      return [...called, ...(draft.line === 'network' ? address : [...serial, 'dataBits' as const]), ...lineOf(draft)];
    case 'csv folder':
      return [...called, 'folder', 'files', 'columns', ...timesOf, 'thermocouple', 'unit', 'decimal', 'seconds'];
  }
}

const registersOf = ({ number = '' }: Draft): readonly EntryName[] => [
  ...(['addresses', 'registers', 'firstRegister', 'register', 'number'] as const),
  ...(number.endsWith('32') ? (['words'] as const) : []),
  ...(['scale', 'unit', 'rawFault', ...read] as const),
];

const lineOf = ({ pattern = '', checkKind = '' }: Draft): readonly EntryName[] => [
  ...(['query', 'lineEnd', 'pattern'] as const),
  ...(pattern === '' ? (['separator', 'column'] as const) : []),
  ...(['checkKind'] as const),
  ...(checkKind === '' ? [] : (['checkBehind', 'checkFrom'] as const)),
  ...(['lineUnit', 'decimal', 'textFault', ...read] as const),
];

/** What is wrong with an entry, by what was typed in it and not by what the file makes of that. */
export function entryProblem(draft: Draft, name: EntryName, { field, found, allowed }: Problem): string {
  const entry = entryOf(name);
  const typed = draft[name]?.trim() ?? '';
  if (entry.choices !== undefined && typed === '') return 'nothing is chosen; choose one';
  const own = lastName(field) === (entry.inFile ?? [name])[0] ? entry.allowed : undefined;
  if (own !== undefined) return `found ${typed === '' ? 'nothing' : `"${typed}"`}; wanted: ${own}`;
  return `found ${found}; wanted: ${allowed}`;
}

const lastName = (field: string): string => field.split('.').findLast((part) => !/^\d+$/.test(part)) ?? field;

/** The entry of those shown that a place in the file comes of; undefined where it has none. */
export function entryIn(draft: Draft, field: string): EntryName | undefined {
  const last = lastName(field);
  return entriesFor(draft).find((name) => (entryOf(name).inFile ?? [name]).includes(last));
}
