/**
 * How the bytes of a text file are to be read: by their mark (Unicode byte order mark), or without one by what they can be.
 * UTF-16 without a mark shows by its zero bytes, UTF-8 by its own rules; what is neither is the 8-bit set of older instruments.
 */

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

export const encodingOf = (bytes: Uint8Array): Encoding => {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return wideWithoutMark(bytes) ?? (isUtf8(bytes) ? 'utf-8' : 'windows-1252');
};

export const encodingNames: Readonly<Record<Encoding, string>> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16, low byte first',
  'utf-16be': 'UTF-16, high byte first',
  'windows-1252': 'Windows-1252',
};

/** Latin text in UTF-16 has a zero in every other byte, which no other encoding of text has. */
const wideWithoutMark = (bytes: Uint8Array): Encoding | undefined => {
  const sample = bytes.subarray(0, 4096);
  let even = 0;
  let odd = 0;
  for (let index = 0; index < sample.length; index++) {
    if (sample[index] !== 0) continue;
    if (index % 2 === 0) even += 1;
    else odd += 1;
  }
  const most = sample.length * 0.4;
  if (odd > most && even === 0) return 'utf-16le';
  return even > most && odd === 0 ? 'utf-16be' : undefined;
};

/** All of it is looked at: the one degree sign of a file may stand far down. */
const isUtf8 = (bytes: Uint8Array): boolean => {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  try {
    for (let from = 0; from < bytes.length; from += chunkBytes) {
      decoder.decode(bytes.subarray(from, from + chunkBytes), { stream: from + chunkBytes < bytes.length });
    }
    return true;
  } catch {
    return false;
  }
};

const chunkBytes = 1_000_000;
