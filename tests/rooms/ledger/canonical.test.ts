/** Canonical bytes: one value, one text; whatever is not that text is refused. */
import { describe, expect, test } from 'vitest';
import { CanonicalFailure, canonicalText, decodeCanonical, encodeCanonical } from '../../../server/ledger/canonical.ts';
import { plainDecimal, settle } from '../../../server/ledger/plain-decimal.ts';
import { limits } from '../../../server/measure/limits.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const decoded = (text: string): unknown => decodeCanonical(bytes(text));

test('keys in order, no spaces, fractions as text, absent properties left out', () => {
  const value = { who: 'Åse', b: [1, -2, 0.125], a: { z: null, y: true }, none: undefined };
  expect(canonicalText(value)).toBe('{"a":{"y":true,"z":null},"b":[1,-2,"#0.125"],"who":"Åse"}');
});

test('text that could be taken for a number is told apart from one', () => {
  expect(canonicalText(['#', '#0.5', '##', 0.5])).toBe('["##","##0.5","###","#0.5"]');
  expect(decoded('["##","##0.5","###","#0.5"]')).toEqual(['#', '#0.5', '##', 0.5]);
});

test.each([
  [1e-7, '0.0000001'],
  [1.5e-9, '0.0000000015'],
  [-143.735, '-143.735'],
  [2 ** 53, '9007199254740992'],
  [1e21, '1000000000000000000000'],
  [1.7976931348623157e308, `17976931348623157${'0'.repeat(292)}`],
  [0.1 + 0.2, '0.30000000000000004'],
])('%d is written %s, without an exponent', (value, text) => {
  expect(plainDecimal(value)).toBe(text);
  expect(decodeCanonical(encodeCanonical({ value }))).toEqual({ value });
});

test('minus zero is zero', () => {
  expect(canonicalText([-0, { a: -0 }])).toBe('[0,{"a":0}]');
});

describe('refused when reading', () => {
  test.each([
    ['a space', '{"a": 1}'],
    ['keys out of order', '{"b":1,"a":2}'],
    ['a key twice', '{"a":1,"a":2}'],
    ['a bare fraction', '[0.5]'],
    ['an exponent', '[1e3]'],
    ['an integer as text', '["#5"]'],
    ['a trailing zero', '["#0.50"]'],
    ['no digit before the point', '["#.5"]'],
    ['words after #', '["#abc"]'],
    ['an escape that is not needed', '["\\u0041"]'],
    ['an integer too long to be exact', '[9007199254740993]'],
    ['minus zero', '[-0]'],
    ['not JSON', '{'],
    ['nothing', ''],
  ])('%s', (_, text) => {
    expect(() => decoded(text)).toThrow(CanonicalFailure);
  });
  test('bytes that are not UTF-8, and a byte order mark', () => {
    expect(() => decodeCanonical(new Uint8Array([0x22, 0xff, 0x22]))).toThrow('not UTF-8');
    expect(() => decodeCanonical(bytes('\ufeff1'))).toThrow(CanonicalFailure);
  });
});

test('what cannot be recorded is named by its field', () => {
  expect(() => encodeCanonical({ a: [{ value: Number.NaN }] })).toThrow('a.0.value: NaN is not a number');
  expect(() => encodeCanonical({ when: new Date(0) })).toThrow('when: only plain objects');
  expect(() => encodeCanonical({ big: 1n })).toThrow('big: a bigint');
  expect(() => encodeCanonical([undefined])).toThrow('0: a undefined');
});

test('a key that means something to JavaScript is a key like any other', () => {
  const value = JSON.parse('{"__proto__":{"x":0.5},"constructor":"#1"}');
  const read = decodeCanonical(encodeCanonical(value)) as object;
  expect(Object.keys(read)).toEqual(['__proto__', 'constructor']);
  expect(Object.getPrototypeOf(read)).toBe(Object.prototype);
});

test('a lone half of a character pair is kept as it is', () => {
  expect(decodeCanonical(encodeCanonical(['\ud83d', 'x\udc00y']))).toEqual(['\ud83d', 'x\udc00y']);
});

test('depth and length are bounded, both ways', () => {
  const nested = (depth: number): string => '['.repeat(depth) + ']'.repeat(depth);
  const deepest = limits.canonicalDepthMaximum;
  expect(encodeCanonical(JSON.parse(nested(deepest)))).toHaveLength(2 * deepest);
  expect(() => encodeCanonical(JSON.parse(nested(deepest + 1)))).toThrow('nested deeper');
  expect(() => decoded(nested(deepest + 1))).toThrow('nested deeper');
  const longest = 'x'.repeat(limits.entryBytesMaximum - 2);
  expect(encodeCanonical(longest)).toHaveLength(limits.entryBytesMaximum);
  expect(() => encodeCanonical(`${longest}x`)).toThrow('at most');
  expect(() => decodeCanonical(new Uint8Array(limits.entryBytesMaximum + 1))).toThrow('more than');
});

test('a conclusion keeps nine decimals: what is beyond them says nothing and may differ between machines', () => {
  expect(settle({ a: [0.1 + 0.2, 5, 1e15 + 0.5], b: 'x', c: -1e-12 })).toEqual({
    a: [0.3, 5, 1e15 + 0.5],
    b: 'x',
    c: 0,
  });
});
