/** PROTOCOL.md against the code: every line that it shows is right, and every bound that it states is the code's. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bounds, revision } from '../../../firmware-protocol/codec/bounds.ts';
import { crc16 } from '../../../firmware-protocol/codec/check.ts';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import { limits } from '../../../server/measure/limits.ts';

const text = readFileSync(new URL('../../../firmware-protocol/PROTOCOL.md', import.meta.url), 'utf8');

describe('the text of the protocol', () => {
  const lines = text.split('\n').flatMap((line) => /^ {4}(?:> )?(\S.* ~[0-9a-f]{4})$/.exec(line)?.[1] ?? []);

  it('shows lines of every kind', () => {
    const kinds = new Set(lines.map((line) => line.split(' ')[0]));
    expect(kinds.size).toBe(10);
  });

  it.each(lines)('%s', (line) => {
    expect(decode(line)).toMatchObject({ ok: true });
  });

  it.each([
    `Revision ${revision}.`,
    `**${bounds.lineLengthMaximum} characters**`,
    `${bounds.periodMilliseconds.lowest} to ${bounds.periodMilliseconds.highest}`,
    `0 to ${bounds.counter.highest}`,
    `0 to ${bounds.ticks.highest}`,
    `0 to ${bounds.short.highest}`,
    `−${-bounds.deciMicrovolts.lowest} to ${bounds.deciMicrovolts.highest}`,
    `−${-bounds.coldJunctionCentiCelsius.lowest} to ${bounds.coldJunctionCentiCelsius.highest}`,
    `−${-bounds.centiCelsius.lowest} to ${bounds.centiCelsius.highest}`,
    `1 to ${bounds.identityLengthMaximum} of`,
    `Number: 1 to ${bounds.channelsMaximum}.`,
    `0 to ${bounds.inputsMaximum} `,
  ])('states the bound %s', (stated) => {
    expect(text.replace(/ +/g, ' ')).toContain(stated);
  });

  it('states the check of the nine digits, which public catalogues give for this parameter set as 0x29B1', () => {
    expect(crc16('123456789')).toBe(0x29b1);
    expect(text).toContain('it is **29b1**');
  });

  it('states the length of the longest lines', () => {
    const url = new URL('../../../firmware-protocol/vectors/good.json', import.meta.url);
    const { vectors } = JSON.parse(readFileSync(url, 'utf8')) as { vectors: { name: string; line: string }[] };
    const lengthOf = (name: string): number => vectors.find((vector) => vector.name === name)!.line.length;
    expect(text).toContain(`all faults, has ${lengthOf('the longest sample')} characters`);
    expect(text).toContain(`the longest hello ${lengthOf('the longest hello')}`);
  });

  it('has the bounds that the station has', () => {
    expect(bounds.lineLengthMaximum).toBe(limits.lineLengthMaximum);
    expect(bounds.channelsMaximum).toBe(limits.channelsMaximum);
  });
});
