/** A line with a check value and one byte of it changed, whichever and to whatever: it tells what was sent, or nothing. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkKinds } from '../../server/weld/connection/check.ts';
import type { TextLines } from '../../server/weld/connection/lines.ts';
import { checkDigits } from '../../server/wire/lines/check-value.ts';
import { createLineCutter } from '../../server/wire/lines/cut-lines.ts';
import { lineReader } from '../../server/wire/lines/read-line.ts';
import { connectionIn, linesFile } from '../support/connection-files.ts';

// One seed, so that every run tries the same cases.
fc.configureGlobal({ seed: 20_026 });

const celsius = fc.integer({ min: -500, max: 13_000 }).map((tenths) => (tenths / 10).toFixed(1));
const [lineFeed, carriageReturn] = [10, 13];

test.each(checkKinds)('%s: a single changed byte is never read as something else', (kind) => {
  const connection = connectionIn<TextLines>(
    linesFile({
      pattern: '$T1={1} T2={2}',
      check: { kind, behind: '*', from: '$' },
      channels: [
        { channel: 1, thermocouple: 'K' },
        { channel: 2, thermocouple: 'K' },
      ],
    }),
  );
  const read = lineReader(connection);
  fc.assert(
    fc.property(celsius, celsius, fc.nat(), fc.integer({ min: 1, max: 255 }), (one, other, at, flipped) => {
      const counted = `T1=${one} T2=${other}`;
      const line = Buffer.from(`$${counted}*${checkDigits(kind, counted)}\r\n`, 'latin1');
      const found: unknown[] = [];
      const cutter = createLineCutter(
        'LF',
        (text) => {
          const told = read(text);
          found.push(told.kind === 'values' ? told.values : told.kind);
        },
        () => {},
      );
      const changed = Buffer.from(line);
      const place = at % (line.length - 1);
      changed[place]! ^= flipped;
      for (const bytes of ['cut\n', line, changed, line]) cutter.take(Buffer.from(bytes));
      const [right] = found;
      expect(right).toMatchObject([{ channel: 1 }, { channel: 2 }]);
      for (const told of found) if (Array.isArray(told)) expect(told).toEqual(right);
      const isCounted = place > 0 && place <= counted.length;
      const endsLine = changed[place] === lineFeed || changed[place] === carriageReturn;
      if (isCounted && !endsLine) expect(found).toEqual([right, 'damaged', right]);
    }),
    { numRuns: 3000 },
  );
});
