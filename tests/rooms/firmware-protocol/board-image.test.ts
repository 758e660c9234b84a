/** The image for the processor that is kept beside the source is what the source gives, with the compiler that made it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readImage } from '../../../firmware-protocol/simulator/image.ts';
import { boardFolder, make, missing } from '../../support/host-board.ts';

/** What make says that leaves no file behind. */
const made = (target: string): string => {
  const { said, remove } = make(target);
  remove();
  return said;
};

const absent = missing('avr-gcc', 'make');
const kept = readFileSync(join(boardFolder, 'image/board.hex'), 'utf8');
const madeBy = readFileSync(join(boardFolder, 'image/made-by.txt'), 'utf8');

it.skipIf(absent !== '')(
  `the source gives the image that is kept${absent}`,
  (context) => {
    const built = make('avr');
    try {
      const here = made('made-by');
      if (here !== madeBy) context.skip(`the image was made by ${madeBy.trim()}, here is ${here.trim()}`);
      // Printed for whoever builds: what the firmware takes of 32 KB flash and 2 KB RAM.
      console.info(built.said.trim());
      expect(readFileSync(join(built.folder, 'board.hex'), 'utf8')).toBe(kept);
    } finally {
      built.remove();
    }
  },
  60_000,
);

it('an image that is not whole is refused with its line', () => {
  const lines = kept.split(/\r?\n/);
  const bent = [...lines.slice(0, 4), lines[4]!.replace(/..$/, '00'), ...lines.slice(5)].join('\n');
  expect(readImage(kept)).toHaveLength(16_384);
  expect(() => readImage(bent)).toThrow('line 5: its sum is wrong');
  expect(() => readImage(kept.slice(0, 2000))).toThrow(/line \d+: not|the image has no end/);
  expect(() => readImage(lines.filter((line) => !line.startsWith(':00000001')).join('\n'))).toThrow('no end');
});
