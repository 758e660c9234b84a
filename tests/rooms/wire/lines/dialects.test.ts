/** Invented instruments that print text: each file holds the description, lines as they come, and the right reading, written by hand. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { TextLines } from '../../../../server/weld/connection/lines.ts';
import { match, piecesOf } from '../../../../server/weld/connection/pattern.ts';
import type { ToldValue } from '../../../../server/weld/told.ts';
import { createLineCutter } from '../../../../server/wire/lines/cut-lines.ts';
import { lineReader } from '../../../../server/wire/lines/read-line.ts';
import { allowedIn, connectionIn, linesFile, networkLinesFile } from '../../../support/connection-files.ts';

const folder = new URL('dialects/', import.meta.url);

const milli = (number: number): string => (number / 1000).toFixed(3);
const valueText = (value: ToldValue): string => {
  const what =
    'fault' in value
      ? value.fault
      : 'reported' in value
        ? milli(value.reported)
        : `${(value.deciMicrovolts / 10).toFixed(1)} uV at ${milli(value.coldJunction)}`;
  return `${value.channel} = ${what} from "${value.said}"`;
};

describe('dialects', () => {
  test.each(readdirSync(folder))('%s', (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const [, file, lines, reading] = text.split(/^--- .*\n/m) as [string, string, string, string];
    const connection = connectionIn<TextLines>(linesFile(JSON.parse(file) as object));
    const read = lineReader(connection);
    const end = connection.lineEnd === 'CR' ? '\r' : '\r\n';
    const read1: string[] = [];
    const cutter = createLineCutter(
      connection.lineEnd ?? 'LF',
      (line) => {
        const found = read(line);
        read1.push(found.kind === 'values' ? found.values.map(valueText).join('; ') : found.kind);
      },
      () => read1.push('too long'),
    );
    const bytes = Buffer.from(`cut off${end}${lines.trimEnd().split('\n').join(end)}${end}`, 'latin1');
    // In pieces of three, as a port may hand them over.
    for (let at = 0; at < bytes.length; at += 3) cutter.take(bytes.subarray(at, at + 3));
    expect(read1).toEqual(reading.trimEnd().split('\n'));
  });
});

test('a line without end is dropped, named once, and the next is read', () => {
  const told: string[] = [];
  const cutter = createLineCutter(
    'LF',
    (line) => told.push(line),
    () => told.push('too long'),
  );
  cutter.take(Buffer.from(`\n${'x'.repeat(5000)}\nT 1\n`));
  expect(told).toEqual(['too long', 'T 1']);
});

test('no line makes a pattern slow', () => {
  const pieces = piecesOf('a{*}a{1}a{2}a{3}b');
  if (typeof pieces === 'string') throw new Error(pieces);
  const began = performance.now();
  for (let count = 0; count < 200; count += 1) match(pieces, 'a'.repeat(1000));
  expect(performance.now() - began).toBeLessThan(1000);
});

test.each([
  ['neither separator nor pattern', {}, 'pattern', /either separator/],
  ['a place that no channel has', { pattern: '{1} {2}' }, 'pattern', /no place \{2\}/],
  ['a channel without place', { pattern: 'T={3}' }, 'channels.0.channel', /\{1\} in the pattern/],
  ['places that touch', { pattern: '{1}{*}' }, 'pattern', /some text between/],
  ['a brace left open', { pattern: 'T={1' }, 'pattern', /brace \}/],
  ['a column that is missing', { separator: ';' }, 'channels.0.column', /the first column is 1/],
  [
    'the decimal mark as separator',
    { separator: ',', decimal: ',', channels: [{ channel: 1, thermocouple: 'K', column: 1 }] },
    'separator',
    /another character/,
  ],
  ['microvolts alone', { pattern: '{1}', unit: 'microvolts' }, 'pattern', /\{cold\}/],
])('%s is told with its place', (_what, own, field, allowed) => {
  expect(allowedIn(networkLinesFile(own), field)).toMatch(allowed);
});
