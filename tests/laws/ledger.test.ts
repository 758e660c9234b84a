/** Laws of the canonical bytes and of the scans' bytes. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { faultOfBlock, openBlock, sealBlock } from '../../server/ledger/block.ts';
import { CanonicalFailure, canonicalText, decodeCanonical, encodeCanonical } from '../../server/ledger/canonical.ts';
import { decodeScans } from '../../server/ledger/scans-read.ts';
import { encodeScans } from '../../server/ledger/scans-write.ts';
import { scansOf } from '../support/arbitrary-scans.ts';

const seed = 20_260_302;
const finite = fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => number + 0);
const text = fc.oneof(
  fc.string({ unit: 'binary' }),
  fc.string().map((tail) => `#${tail}`),
  finite.map((n) => `#${n}`),
);
const json = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 5 },
    fc.constant(null),
    fc.boolean(),
    fc.maxSafeInteger(),
    finite,
    text,
    tie('list'),
    tie('object'),
  ),
  list: fc.array(tie('value'), { maxLength: 6 }),
  object: fc.dictionary(text, tie('value'), { maxKeys: 6, noNullPrototype: true }),
})).value;

test('what is written is read back', () => {
  fc.assert(
    fc.property(json, (value) => {
      expect(decodeCanonical(encodeCanonical(value))).toStrictEqual(value);
    }),
    { seed, numRuns: 500 },
  );
});

test('one value has one text, whatever the order of its keys', () => {
  const shuffled = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(shuffled);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value)
        .reverse()
        .map(([key, member]) => [key, shuffled(member)]),
    );
  };
  fc.assert(
    fc.property(json, (value) => {
      expect(canonicalText(shuffled(value))).toBe(canonicalText(value));
    }),
    { seed, numRuns: 300 },
  );
});

test('what can be read is what would be written: any other bytes are refused by name', () => {
  const mutated = fc.tuple(json, fc.nat(), fc.nat({ max: 255 })).map(([value, where, byte]) => {
    const bytes = Uint8Array.from(encodeCanonical(value));
    bytes[where % bytes.length] = byte;
    return bytes;
  });
  fc.assert(
    fc.property(fc.oneof(mutated, fc.uint8Array({ maxLength: 60 })), (bytes) => {
      let value: unknown;
      try {
        value = decodeCanonical(bytes);
      } catch (error) {
        expect(error).toBeInstanceOf(CanonicalFailure);
        return;
      }
      expect(encodeCanonical(value)).toEqual(bytes);
    }),
    { seed, numRuns: 1000 },
  );
});

test('scans come back from their bytes and from their block', () => {
  fc.assert(
    fc.property(scansOf(12), (scans) => {
      expect(decodeScans(encodeScans(scans), scans.length)).toStrictEqual(scans);
      const { body, packed } = sealBlock(scans);
      expect(openBlock(body, packed)).toStrictEqual(scans);
      expect(faultOfBlock(body, packed)).toBeUndefined();
    }),
    { seed, numRuns: 200 },
  );
});

test('damaged scans are refused by name, or are scans: reading never throws anything else', () => {
  fc.assert(
    fc.property(scansOf(4), fc.nat(), fc.nat({ max: 255 }), (scans, where, byte) => {
      const bytes = Uint8Array.from(encodeScans(scans));
      bytes[where % bytes.length] = byte;
      try {
        expect(decodeScans(bytes, scans.length)).toHaveLength(scans.length);
      } catch (error) {
        expect(error).toBeInstanceOf(CanonicalFailure);
      }
    }),
    { seed, numRuns: 500 },
  );
});
