/** Laws of the stream: cut anywhere it gives the same lines; whatever comes, memory and time stay bounded. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { encode } from '../../firmware-protocol/codec/encode.ts';
import { limits } from '../../server/measure/limits.ts';
import { openIntake } from '../../server/wire/line-intake.ts';
import { settled } from '../rooms/wire/hand-clock.ts';
import { anyFrame } from '../support/any-frame.ts';

fc.configureGlobal({ seed: 1 });

interface Taken {
  readonly lines: string[];
  readonly dropped: number;
}

const takeIn = async (pieces: readonly string[]): Promise<Taken> => {
  const lines: string[] = [];
  let dropped = 0;
  const intake = openIntake({
    onLine: (line) => lines.push(line),
    onDropped: (bytes) => {
      dropped += bytes;
    },
  });
  for (const piece of pieces) intake.take(Buffer.from(piece, 'latin1'));
  await settled();
  intake.close();
  return { lines, dropped };
};

/** A text in pieces, cut where the numbers say. */
const cut = (text: string, places: readonly number[]): string[] => {
  const sorted = [0, ...places.map((place) => place % (text.length + 1)), text.length].sort((a, b) => a - b);
  return sorted.slice(1).map((end, index) => text.slice(sorted[index], end));
};

const cuts = fc.array(fc.nat({ max: 100_000 }), { maxLength: 30 });
const bytes = fc.string({
  unit: fc.integer({ min: 0, max: 255 }).map((code) => String.fromCharCode(code)),
  maxLength: 300,
});

describe('bytes of a port', () => {
  it('give the lines of the golden streams, cut anywhere', async () => {
    const url = new URL('../../firmware-protocol/vectors/streams.json', import.meta.url);
    const { vectors } = JSON.parse(readFileSync(url, 'utf8')) as {
      vectors: { name: string; bytes: string; lines: string[]; dropped: number }[];
    };
    expect(vectors.length).toBeGreaterThan(0);
    for (const vector of vectors) {
      const whole = await takeIn([vector.bytes]);
      expect(whole, vector.name).toEqual({ lines: vector.lines, dropped: vector.dropped });
      const single = await takeIn([...vector.bytes]);
      expect(single, vector.name).toEqual(whole);
    }
  });

  it('give the same frames however they are cut', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(anyFrame, { minLength: 1, maxLength: 6 }), cuts, async (frames, places) => {
        const lines = frames.map(encode);
        const { lines: taken, dropped } = await takeIn(cut(`\n${lines.join('\n')}\n`, places));
        expect(taken).toEqual(lines);
        expect(dropped).toBe(0);
      }),
    );
  });

  it('of any kind give the same lines and the same number of dropped bytes however they are cut', async () => {
    const noisy = fc.array(fc.oneof(bytes, fc.constant('\n'), anyFrame.map(encode)), { maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(noisy, cuts, async (pieces, places) => {
        const text = pieces.join('');
        const whole = await takeIn([text]);
        expect(await takeIn(cut(text, places))).toEqual(whole);
        const lineFeeds = text.split('\n').length - 1;
        expect(whole.lines.join('').length + whole.dropped).toBe(text.length - lineFeeds);
        for (const line of whole.lines) expect(line.length).toBeLessThanOrEqual(limits.lineLengthMaximum + 1);
      }),
    );
  });
});
