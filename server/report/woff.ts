/** A font as it comes for browsers (WOFF 1.0: tables pressed one by one) as the typesetter reads it: the tables that it needs, opened. */
import { inflateSync } from 'node:zlib';

const headerLength = 12;
const entryLength = 16;
/** What a TrueType font must have, and nothing that only an editor of fonts wants. */
const needed = new Set(['OS/2', 'cmap', 'glyf', 'head', 'hhea', 'hmtx', 'loca', 'maxp', 'name', 'post']);

export const openedWoff = (woff: Buffer): Buffer => {
  if (woff.toString('latin1', 0, 4) !== 'wOFF')
    throw new Error('a font of the report is not as it was installed; install the packages again with: npm ci');
  const tables = Array.from({ length: woff.readUInt16BE(12) }, (_, index) => {
    const at = 44 + 20 * index;
    const [offset, pressed, length] = [4, 8, 12].map((each) => woff.readUInt32BE(at + each)) as [
      number,
      number,
      number,
    ];
    const bytes = woff.subarray(offset, offset + pressed);
    return {
      tag: woff.toString('latin1', at, at + 4),
      checksum: woff.readUInt32BE(at + 16),
      bytes: pressed < length ? inflateSync(bytes) : bytes,
    };
  }).filter(({ tag }) => needed.has(tag));
  const head = Buffer.alloc(headerLength + entryLength * tables.length);
  woff.copy(head, 0, 4, 8);
  head.writeUInt16BE(tables.length, 4);
  let offset = head.length;
  const bodies = tables.map(({ tag, checksum, bytes }, index) => {
    const at = headerLength + entryLength * index;
    head.write(tag, at, 'latin1');
    head.writeUInt32BE(checksum, at + 4);
    head.writeUInt32BE(offset, at + 8);
    head.writeUInt32BE(bytes.length, at + 12);
    const padded = Buffer.alloc(Math.ceil(bytes.length / 4) * 4);
    bytes.copy(padded);
    offset += padded.length;
    return padded;
  });
  return Buffer.concat([head, ...bodies]);
};
