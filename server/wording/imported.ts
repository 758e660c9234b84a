/** What is said of a file that somebody else's instrument wrote: how it was read, and what was passed over. */
import type { Instant } from '../measure/quantity.ts';
import type { ImportedFile, LogRead, PassedOver } from '../weld/imported.ts';
import { instantText } from './time.ts';

/** One clause for each thing that was found out or said. */
export const readTexts = (read: LogRead): readonly string[] => {
  const { written, delimiter, headerLine, timeColumn, dateColumn, decimal, numbers, timeUnit } = read;
  return [
    `read as ${written}`,
    ...(written.startsWith('workbook') ? [] : [`columns parted by ${delimiterText(delimiter)}`]),
    `column names on line ${headerLine}`,
    dateColumn === undefined ? `time from "${timeColumn}"` : `date from "${dateColumn}" and time from "${timeColumn}"`,
    ...(read.order === undefined ? [] : [`dates as ${read.order}`]),
    ...(numbers === undefined
      ? []
      : [numbers === 'elapsed' && timeUnit !== undefined ? `elapsed ${timeUnit}` : numbers]),
    ...(read.clock === undefined ? [] : [read.clock]),
    ...clockTexts(read),
    `decimals parted by ${decimal === ',' ? 'a comma' : 'a point'}`,
    ...columnTexts(read),
    ...(read.leftOut.length === 0 ? [] : [`left out: ${read.leftOut.map((each) => `"${each}"`).join(', ')}`]),
  ];
};

/** What a person said of it, or that nobody had to. */
export const saidText = ({ said }: LogRead): string =>
  said.length === 0
    ? 'All of it was found out from the file.'
    : `Said by whoever read it, not found in the file: ${said.join(', ')}.`;

export const delimiterText = (delimiter: string): string =>
  ({ '\t': 'tab', ';': 'semicolon', ',': 'comma' })[delimiter] ?? delimiter;

const clockTexts = ({ zone, offsetMinutes, day, start }: LogRead): readonly string[] => [
  ...(zone === undefined ? [] : [`clock of ${zone}`]),
  ...(offsetMinutes === undefined ? [] : [`clock at UTC${offsetText(offsetMinutes)}`]),
  ...(day === undefined ? [] : [`begun on ${day}`]),
  ...(start === undefined ? [] : [`begun at ${instantText(start, 'UTC')}`]),
];

export const offsetText = (minutes: number): string => {
  const size = Math.abs(minutes);
  const two = (count: number): string => String(count).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
};

const columnTexts = ({ probes }: LogRead): readonly string[] => {
  const units = [...new Set(probes.map(({ unit }) => unit))].map(unitText);
  const renamed = probes.filter(({ probe, column }) => !column.startsWith(probe));
  return [
    ...(units.length === 0 ? [] : [`temperatures in ${units.join(' and ')}`]),
    ...renamed.map(({ probe, column }) => `"${column}" is probe ${probe}`),
  ];
};

const unitText = (unit: string): string => (unit === 'K' ? 'kelvin' : `°${unit}`);

export const importedFileText = (file: ImportedFile, when: (at: Instant) => string): string => {
  const { name, bytes, sha256, rows, firstAt, lastAt, passedOver = [] } = file;
  const identity = `${name} (${bytes} bytes, SHA-256 ${sha256})`;
  if (file.of === 'events') return `Events file ${identity}`;
  const span =
    firstAt === undefined || lastAt === undefined ? '' : ` from ${when(firstAt)} to ${when(lastAt)} by the log`;
  const read = file.read === undefined ? '' : `. ${sentence(readTexts(file.read).join('; '))} ${saidText(file.read)}`;
  const lines = passedOver.length === 0 ? 'No line was passed over.' : `${count(passedOver.length)} passed over.`;
  return `Log ${identity}: ${rows ?? 0} rows${span}${read} ${lines}`;
};

const count = (lines: number): string => (lines === 1 ? '1 line was' : `${lines} lines were`);
const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

export const passedOverText = ({ line, message }: PassedOver): string =>
  line === undefined ? message : `line ${line}: ${message}`;
