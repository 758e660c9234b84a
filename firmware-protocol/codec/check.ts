/**
 * The check value over a line: CRC-16 with polynomial 0x1021, start 0xFFFF, bits not reflected, nothing
 * added at the end (known as CRC-16/CCITT-FALSE). Over the nine characters "123456789" it is 0x29B1.
 */

/** Check value over the characters of a text, each taken as one byte. */
export const crc16 = (text: string): number => {
  let crc = begin;
  for (let index = 0; index < text.length; index += 1) crc = further(crc, text.charCodeAt(index) & 0xff);
  return crc;
};

/** The same over the first so many bytes, four at a time: a step waits for the one before, its four lookups do not. */
export const crc16OfBytes = (bytes: Uint8Array, length: number): number => {
  let crc = begin;
  let at = 0;
  for (; at + 4 <= length; at += 4)
    crc =
      ofByteAndThree[(crc >> 8) ^ bytes[at]!]! ^
      ofByteAndTwo[(crc & 0xff) ^ bytes[at + 1]!]! ^
      ofByteAndOne[bytes[at + 2]!]! ^
      ofByte[bytes[at + 3]!]!;
  for (; at < length; at += 1) crc = further(crc, bytes[at]!);
  return crc;
};

const begin = 0xffff;

/** What one byte does to the check value, worked out once for each of the 256. */
const ofByte = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte << 8;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 0x8000 ? ((crc << 1) ^ 0x1021) & 0xffff : (crc << 1) & 0xffff;
  return crc;
});

const further = (crc: number, byte: number): number => ((crc << 8) & 0xffff) ^ ofByte[(crc >> 8) ^ byte]!;

/** The same of a byte and so many zeros behind it. */
const ofByteAndOne = ofByte.map((crc) => further(crc, 0));
const ofByteAndTwo = ofByteAndOne.map((crc) => further(crc, 0));
const ofByteAndThree = ofByteAndTwo.map((crc) => further(crc, 0));

/** A line without its check value becomes a whole line: a space, a tilde, four small hexadecimal digits. */
export const withCheck = (content: string): string => `${content} ~${checkText(content)}`;

export const checkText = (content: string): string => crc16(content).toString(16).padStart(4, '0');
