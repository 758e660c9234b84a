/**
 * One line of an instrument that prints text, read as its file describes. Nothing is guessed: a line that is not written so is
 * not understood, a word that the file does not know is no reading, and what stood there is kept.
 */
import { limits } from '../../measure/limits.ts';
import type { DeciMicrovolt, MilliCelsius } from '../../measure/quantity.ts';
import type { TextLines } from '../../weld/connection/lines.ts';
import { match, type Place, piecesOf } from '../../weld/connection/pattern.ts';
import type { ToldValue } from '../../weld/told.ts';
import { readCell } from '../log-numbers.ts';
import { type TemperatureUnit, toCelsius, unitName } from '../log-units.ts';
import { checkedLine } from './check-value.ts';

export type LineRead =
  | {
      readonly kind: 'values';
      readonly values: readonly ToldValue[];
      /** Why a place holds no temperature, where the instrument did not say so itself. */
      readonly doubts: readonly string[];
    }
  /** Not meant for us, as the file says. */
  | { readonly kind: 'passed over' }
  | { readonly kind: 'not understood'; readonly why: string }
  /** Its check value is wrong or missing: nothing of it is used. */
  | { readonly kind: 'damaged'; readonly why: string };

/** Ready for many lines. */
export const lineReader = (connection: TextLines): ((line: string) => LineRead) => {
  const { check } = connection;
  const plain = plainReader(connection);
  const read = (line: string): LineRead => plain(asText(line));
  if (check === undefined) return read;
  return (line) => {
    const checked = checkedLine(check, line);
    return 'why' in checked ? { kind: 'damaged', why: checked.why } : read(checked.text);
  };
};

const plainReader = (connection: TextLines): ((line: string) => LineRead) => {
  const { pattern, separator } = connection;
  if (pattern === undefined) return (line) => byColumns(connection, separator!, line);
  const pieces = piecesOf(pattern);
  if (typeof pieces === 'string') throw new Error(pieces);
  return (line) => {
    const found = match(pieces, line);
    return found === undefined ? notUnderstood('it is not written like the pattern') : byPlaces(connection, found);
  };
};

const notUnderstood = (why: string): LineRead => ({ kind: 'not understood', why });

interface Cell {
  readonly channel: number;
  readonly text: string;
}

function byColumns(connection: TextLines, separator: string, line: string): LineRead {
  const { beginsWith, coldJunctionColumn, channels } = connection;
  if (beginsWith !== undefined && !line.startsWith(beginsWith)) return { kind: 'passed over' };
  const cells = cut(line, separator);
  const last = Math.max(coldJunctionColumn ?? 0, ...channels.map(({ column }) => column ?? 0));
  if (cells.length < last) return notUnderstood(`${cells.length} columns in place of ${last} or more`);
  return valuesOf(
    connection,
    channels.map(({ channel, column }) => ({ channel, text: cells[column! - 1]! })),
    coldJunctionColumn === undefined ? undefined : cells[coldJunctionColumn - 1]!,
  );
}

const cut = (line: string, separator: string): string[] =>
  (separator === 'blanks' ? line.trim().split(/[ \t]+/) : line.split(separator === 'tab' ? '\t' : separator)).map(
    (cell) => cell.trim().replace(/^"(.*)"$/, '$1'),
  );

function byPlaces(connection: TextLines, found: ReadonlyMap<Place, string>): LineRead {
  const named = found.get('channel');
  const cold = found.get('cold');
  if (named === undefined) {
    const cells = connection.channels.map(({ channel }) => ({ channel, text: found.get(channel)! }));
    return valuesOf(connection, cells, cold);
  }
  const channel = /^\d{1,3}$/.test(named) ? Number(named) : undefined;
  if (channel === undefined) return notUnderstood(`"${bounded(named)}" in place of the number of a channel`);
  if (!connection.channels.some((each) => each.channel === channel)) return { kind: 'passed over' };
  return valuesOf(connection, [{ channel, text: found.get('value')! }], cold);
}

function valuesOf(connection: TextLines, cells: readonly Cell[], cold: string | undefined): LineRead {
  const read = cells.map((cell) => readingIn(connection, cell, cold));
  // Where only the columns are known, a line of words is a header or a greeting, and says nothing of the probes.
  const mayBeHeader = connection.pattern === undefined && connection.beginsWith === undefined;
  if (mayBeHeader && read.every(({ isWord }) => isWord))
    return notUnderstood('no number and no word that the file knows');
  const doubts = read.flatMap(({ value, doubt }) =>
    doubt === undefined ? [] : [`channel ${value.channel}: ${doubt}`],
  );
  return { kind: 'values', values: read.map(({ value }) => value), doubts };
}

interface CellRead {
  readonly value: ToldValue;
  /** Neither a number, nor nothing, nor a fault that the file names. */
  readonly isWord: boolean;
  readonly doubt?: string;
}

function readingIn({ faults, unit, decimal }: TextLines, { channel, text }: Cell, cold: string | undefined): CellRead {
  const said = text === '' ? 'empty' : bounded(cold === undefined ? text : `${text} cold ${cold}`);
  const fault = (means: Extract<ToldValue, { fault: unknown }>['fault'], doubt?: string, isWord = false): CellRead => ({
    value: { channel, said, fault: means },
    isWord,
    ...(doubt === undefined ? {} : { doubt: `"${said}" ${doubt}` }),
  });
  const marked = faults?.find((each) => each.text !== undefined && each.text.toLowerCase() === text.toLowerCase());
  if (marked !== undefined) return fault(marked.means);
  const number = readCell(text, decimal);
  if (number.kind !== 'number')
    return number.kind === 'none'
      ? fault('no reading')
      : fault('no reading', 'is no number, and no fault that the connection names', true);
  const { value, unit: beside } = number;
  const beyond = faults?.find(
    ({ above, below }) => (above !== undefined && value > above) || (below !== undefined && value < below),
  );
  if (beyond !== undefined) return fault(beyond.means);
  const whole = (scaled: number): number | undefined =>
    Number.isFinite(scaled) && Math.abs(scaled) < 1e9 ? Math.round(scaled) + 0 : undefined;
  if (unit === 'microvolts') {
    const [volts, terminals] = [whole(value * 10), readCell(cold ?? '', decimal)];
    if (beside !== undefined || volts === undefined) return fault('no reading', 'is no number of microvolts');
    const junction = terminals.kind === 'number' && terminals.unit !== 'F' ? whole(terminals.value * 1000) : undefined;
    if (junction === undefined) return fault('cold junction out of range');
    const voltage = { deciMicrovolts: volts as DeciMicrovolt, coldJunction: junction as MilliCelsius };
    return { value: { channel, said, ...voltage }, isWord: false };
  }
  // Where the line itself says another unit than the file, one of the two is wrong.
  const stated = unit === 'beside each value' ? beside : beside === undefined || beside === unit ? unit : undefined;
  if (stated === undefined)
    return fault(
      'no reading',
      beside === undefined
        ? 'has no unit beside it'
        : `is in ${unitName[beside]}, by the connection it would be in ${unitName[unit as TemperatureUnit]}`,
    );
  const reported = whole(toCelsius(value, stated) * 1000);
  if (reported === undefined) return fault('out of range');
  return { value: { channel, said, reported: reported as MilliCelsius }, isWord: false };
}

/** The characters of a line that came as bytes: of UTF-8 where they are that, else each byte is one. */
const asText = (line: string): string => {
  if (!/[\u0080-\u00ff]/.test(line)) return line;
  try {
    return utf8.decode(Buffer.from(line, 'latin1'));
  } catch {
    return line;
  }
};
const utf8 = new TextDecoder('utf-8', { fatal: true });

const bounded = (text: string): string => text.slice(0, limits.nameMaximum);
