/** Which characters a TrueType font can print: its character map (OpenType "cmap", formats 4 and 12). */
import { tableOf } from './font-table.ts';

export const coverageOf = (font: Buffer): ReadonlySet<number> => {
  const { offset } = tableOf(font, 'cmap');
  const covered = new Set<number>();
  const count = font.readUInt16BE(offset + 2);
  for (let index = 0; index < count; index += 1) {
    const at = offset + font.readUInt32BE(offset + 4 + 8 * index + 4);
    const format = font.readUInt16BE(at);
    if (format === 4) segments(font, at, covered);
    if (format === 12) groups(font, at, covered);
  }
  return covered;
};

const segments = (font: Buffer, at: number, covered: Set<number>): void => {
  const doubled = font.readUInt16BE(at + 6);
  const ends = at + 14;
  const starts = ends + doubled + 2;
  const deltas = starts + doubled;
  const ranges = deltas + doubled;
  for (let index = 0; index < doubled; index += 2) {
    const end = font.readUInt16BE(ends + index);
    const start = font.readUInt16BE(starts + index);
    const delta = font.readUInt16BE(deltas + index);
    const range = font.readUInt16BE(ranges + index);
    for (let code = start; code <= end && code !== 0xffff; code += 1) {
      const listed = range === 0 ? code : font.readUInt16BE(ranges + index + range + 2 * (code - start));
      if (listed !== 0 && ((listed + delta) & 0xffff) !== 0) covered.add(code);
    }
  }
};

const groups = (font: Buffer, at: number, covered: Set<number>): void => {
  const count = font.readUInt32BE(at + 12);
  for (let index = 0; index < count; index += 1) {
    const group = at + 16 + 12 * index;
    const start = font.readUInt32BE(group);
    const end = font.readUInt32BE(group + 4);
    for (let code = start; code <= end; code += 1) covered.add(code);
  }
};
