/** The codec against the golden lines, whose check values another implementation made. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bounds } from '../../../firmware-protocol/codec/bounds.ts';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import type { Frame, Rejection } from '../../../firmware-protocol/codec/frame.ts';

interface Good {
  readonly name: string;
  readonly bug: string;
  readonly line: string;
  readonly frame: Frame;
  readonly canonical?: false;
}

interface Bad {
  readonly name: string;
  readonly bug: string;
  readonly line: string;
  readonly rejection: Rejection;
}

const read = <Vector>(file: string): readonly Vector[] => {
  const url = new URL(`../../../firmware-protocol/vectors/${file}`, import.meta.url);
  return (JSON.parse(readFileSync(url, 'utf8')) as { readonly vectors: readonly Vector[] }).vectors;
};

const good = read<Good>('good.json');
const bad = read<Bad>('bad.json');

describe('good lines', () => {
  it.each(good.map((vector) => [vector.name, vector] as const))('%s', (_, vector) => {
    expect(decode(vector.line)).toEqual({ ok: true, frame: vector.frame });
    if (vector.canonical !== false) expect(encode(vector.frame)).toBe(vector.line);
  });

  it('hold every kind of frame and every fault', () => {
    const kinds = new Set(good.map(({ frame }) => frame.kind));
    expect([...kinds].sort()).toEqual(
      [
        'ask hello',
        'heartbeat',
        'hello',
        'horn',
        'lamp',
        'period',
        'permission',
        'reply',
        'sample',
        'send again',
      ].sort(),
    );
  });

  it('all fit the length of a line', () => {
    expect(Math.max(...good.map(({ line }) => line.length))).toBe(bounds.lineLengthMaximum);
  });
});

describe('bad lines', () => {
  it.each(bad.map((vector) => [vector.name, vector] as const))('%s', (_, vector) => {
    expect(decode(vector.line)).toMatchObject({ ok: false, rejection: vector.rejection });
  });

  it('hold every reason for a rejection', () => {
    const reasons: Rejection[] = [
      'too long',
      'not printable',
      'no check value',
      'wrong check value',
      'unknown kind',
      'unknown revision',
      'malformed',
      'out of bounds',
    ];
    expect(new Set(bad.map(({ rejection }) => rejection))).toEqual(new Set(reasons));
  });
});

describe('each vector', () => {
  it('has a name of its own and says what it hunts', () => {
    const all = [...good, ...bad];
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    expect(all.every(({ bug }) => bug.length > 5)).toBe(true);
  });
});
