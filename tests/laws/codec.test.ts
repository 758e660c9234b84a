/** Laws of the codec: what is written is read back, whatever comes is answered, damage is seen. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { bounds } from '../../firmware-protocol/codec/bounds.ts';
import { crc16, crc16OfBytes, withCheck } from '../../firmware-protocol/codec/check.ts';
import { decode, decodeByFields } from '../../firmware-protocol/codec/decode.ts';
import { encode } from '../../firmware-protocol/codec/encode.ts';
import { plainSample } from '../../firmware-protocol/codec/plain-sample.ts';
import { anyFrame, anySample } from '../support/any-frame.ts';

fc.configureGlobal({ seed: 1 });

describe('a frame', () => {
  it('comes back from its line as it was', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        const line = encode(frame);
        expect(line.length).toBeLessThanOrEqual(bounds.lineLengthMaximum);
        expect(line).toMatch(/^[\x20-\x7e]+$/);
        expect(decode(line)).toEqual({ ok: true, frame });
      }),
    );
  });

  it('has one line: a line that is read and written again is the same unless it bears unknown fields', () => {
    const piece = fc.constantFrom(
      'sample',
      'boot=1',
      'sequence=0',
      'ticks=5',
      'resent=no',
      'inputs=0000',
      '1=5@5',
      '2=-!o',
      '3=7',
    );
    fc.assert(
      fc.property(fc.array(piece, { minLength: 5, maxLength: 9 }), (pieces) => {
        const line = withCheck(pieces.join(' '));
        const read = decode(line);
        if (read.ok) expect(encode(read.frame)).toBe(line);
      }),
      { numRuns: 500 },
    );
  });

  it('outside the bounds of the wire is refused by the writer, not sent damaged', () => {
    fc.assert(
      fc.property(anySample, fc.constantFrom(-1, 1.5, Number.NaN, 2 ** 32), (sample, sequence) => {
        expect(() => encode({ ...sample, sequence })).toThrow(RangeError);
      }),
    );
  });
});

describe('any text', () => {
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 600 }),
    fc.string({ unit: 'grapheme-ascii', maxLength: 600 }),
  );

  it('is answered, never thrown at', () => {
    fc.assert(fc.property(text, (line) => void expect(decode(line)).toHaveProperty('ok')));
  });

  it('is answered with a right check value too', () => {
    fc.assert(fc.property(text, (content) => void expect(decode(withCheck(content))).toHaveProperty('ok')));
  });

  it('that differs from a line in a piece or two is answered', () => {
    fc.assert(
      fc.property(anyFrame, fc.nat(), fc.nat({ max: 8 }), text, (frame, place, length, put) => {
        const line = encode(frame);
        const at = place % line.length;
        const content = `${line.slice(0, at)}${put}${line.slice(at + length)}`;
        expect(decode(content)).toHaveProperty('ok');
        expect(decode(withCheck(content))).toHaveProperty('ok');
      }),
    );
  });
});

test('the check value of bytes is that of their characters', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 40 }), fc.nat({ max: 40 }), (bytes, length) => {
      const first = bytes.subarray(0, Math.min(length, bytes.length));
      expect(crc16OfBytes(bytes, first.length)).toBe(crc16(Buffer.from(first).toString('latin1')));
    }),
  );
  expect(crc16OfBytes(Buffer.from('123456789'), 9)).toBe(0x29b1);
});

describe('the short way of a plain sample', () => {
  const edges = [
    '0',
    '1',
    '16',
    '17',
    '-0',
    '00',
    '-',
    '+1',
    '1.5',
    '1e3',
    '-27316',
    '250001',
    '1000001',
    '4294967296',
    '99999999999999999',
  ];
  const odd = fc.constantFrom(
    ...edges,
    'yes',
    'y',
    'no',
    '0x1f',
    '00FF',
    ' ',
    '=',
    '@',
    '5@5',
    '5@',
    '-!o',
    '5!o',
    'x=1',
    '~',
    'é',
    'ı',
  );

  it('is gone by each sample without a fault, and gives what the fields give', () => {
    fc.assert(
      fc.property(anySample, (sample) => {
        const line = encode(sample);
        const isPlain = sample.values.every(({ faults }) => faults.length === 0);
        expect(plainSample(line)).toEqual(isPlain ? sample : undefined);
        expect(decodeByFields(line)).toEqual({ ok: true, frame: sample });
      }),
      { numRuns: 500 },
    );
  });

  it('makes no difference to any line, whatever stands in place of a word or a number', () => {
    const sound = anySample.map((sample) => ({
      ...sample,
      values: sample.values.map((each) => ({ ...each, faults: [] })),
    }));
    const measured = sound.filter(({ values }) => values.every(({ reading }) => reading.form !== 'none'));
    fc.assert(
      fc.property(measured, fc.nat(), odd, fc.boolean(), (sample, which, put, isChecked) => {
        const line = encode(sample);
        const words = line.slice(0, -6).split(/(?<=[ =@])|(?=[ =@])/);
        words[which % words.length] = put;
        const changed = isChecked ? withCheck(words.join('')) : `${words.join('')}${line.slice(-6)}`;
        expect(decode(changed)).toEqual(decodeByFields(changed));
      }),
      { numRuns: 3000 },
    );
  });
});

describe('damage', () => {
  const bits = fc.uniqueArray(fc.nat({ max: 4095 }), { minLength: 1, maxLength: 3 });

  it('of one to three bits in the characters that the check covers is seen', () => {
    fc.assert(
      fc.property(anyFrame, bits, (frame, places) => {
        const line = encode(frame);
        const covered = (line.length - 6) * 8;
        const flips = [...new Set(places.map((place) => place % covered))];
        expect(decode(flipped(line, flips))).toMatchObject({ ok: false });
      }),
      { numRuns: 1000 },
    );
  });

  it('of a burst of up to 16 bits is seen', () => {
    fc.assert(
      fc.property(anyFrame, fc.nat(), fc.integer({ min: 1, max: 0xffff }), (frame, place, pattern) => {
        const line = encode(frame);
        const start = place % ((line.length - 8) * 8);
        const flips = Array.from({ length: 16 }, (_, bit) => bit).filter((bit) => pattern & (1 << bit));
        expect(
          decode(
            flipped(
              line,
              flips.map((bit) => start + bit),
            ),
          ),
        ).toMatchObject({ ok: false });
      }),
      { numRuns: 1000 },
    );
  });
});

/** The line with bits turned over; bit 0 is the highest of the first character. */
const flipped = (line: string, places: readonly number[]): string => {
  const bytes = Buffer.from(line, 'latin1');
  for (const place of places) bytes[place >> 3]! ^= 0x80 >> (place & 7);
  return bytes.toString('latin1');
};
