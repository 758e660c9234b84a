/**
 * Entries as they lie on the disk. What is hashed are the canonical bytes; most of those are the same words again and again
 * and hashes in hexadecimal digits, and a year of them is worth packing. FORMAT.md, section 6, says how. Bytes that begin
 * with a brace are the entry as it is: records of before have no others, and they are read for ever.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { CanonicalFailure } from '../ledger/canonical.ts';
import { limits } from '../measure/limits.ts';

const packedMark = 0x01;
/** Stands in the text for a hash: canonical bytes never hold it. */
const hashMark = 0x00;
const hashBytes = 32;
/** Between one hash and the next; an entry that names more is kept as it is. */
const hashesMaximum = 255;

/**
 * Words that entries are made of, the commonest last. Part of the format: never changed, since what was packed by it needs
 * it. Another one would need another mark.
 */
export const entryWords = [
  '"celsius":"instrument":"note":"text":"reason":"document":"sha256":"mediaType":"image/jpeg","title":"place":{"part":"side":"face":"distanceMillimetres":',
  '"kind":"verdict","verdict":"cannot-be-judged""complies""does-not-comply""kind":"board","kind":"period","kind":"link","kind":"clock","kind":"hole",',
  '"class":"input","format":1,"kind":"heat","state":"on""off"',
  '"proof":"PIN","badge","password","role":"inspector","coordinator","heater operator","person":"p-',
  '{"amperes":"arcSeconds":"kind":"pass end","pass":"runOutMillimetres":"volts":"#{"kind":"pass start","pass":"passKind":"fill","root","cap","qualifications":[],"welder":"',
  '"alarm":{"announcedAt":"cause":"key":"probe":"state":"unacknowledged","acknowledged","returned unacknowledged"},"change":"began","ended","withdrawn","kind":"alarm"},',
  '{"change":"began","finding":{"from":1772,"key":"limit":"place":"severity":"to":"value":"text":"kind":"phase","phase":"heating","pass running","between passes","ready",',
  '"class":"conclusion","format":1,"kind":"finding","previous":"\u0000","seq":1,"who":"station"}',
  '"class":"input","format":1,"kind":"pass start","previous":"\u0000","role":"welder","seq":1,"who":"',
  '{"at":1772431260000,"body":{"heads":[{"chain":"joint-1","hash":"\u0000","seq":12}]},"chain":"station","class":"block","format":1,"kind":"heads","previous":"\u0000","seq":12,"who":"station"}',
  '{"at":1772431260000,"body":{"arrivedFirst":1772431200000,"arrivedLast":1772431259000,"bytes":12,"count":60,"measuredFrom":1772431199960,"measuredTo":1772431258960,"scans":"\u0000"},"chain":"',
  '","class":"block","format":1,"kind":"block","previous":"\u0000","seq":1,"who":"station"}',
].join('');
const dictionary = Buffer.from(entryWords, 'utf8');

export const packEntry = (bytes: Uint8Array): Uint8Array => {
  const hashes: string[] = [];
  const rest = Buffer.from(bytes)
    .toString('utf8')
    .replace(/"([0-9a-f]{64})"/g, (_, hash: string) => {
      hashes.push(hash);
      return `"${String.fromCharCode(hashMark)}"`;
    });
  if (hashes.length > hashesMaximum) return bytes;
  const packed = Buffer.concat([
    Buffer.from([packedMark, hashes.length]),
    Buffer.from(hashes.join(''), 'hex'),
    deflateRawSync(Buffer.from(rest, 'utf8'), { dictionary, level: 9 }),
  ]);
  return packed.length < bytes.length ? packed : bytes;
};

/** Throws CanonicalFailure for bytes that packEntry would not have written. */
export const unpackEntry = (stored: Uint8Array): Uint8Array => {
  if (stored[0] !== packedMark) return stored;
  const count = stored[1] ?? 0;
  const textAt = 2 + count * hashBytes;
  const text = inflated(stored.subarray(textAt));
  const hashes = Buffer.from(stored.subarray(2, textAt)).toString('hex');
  let next = 0;
  const bytes = text.replaceAll(String.fromCharCode(hashMark), () => {
    next += 1;
    return hashes.slice((next - 1) * 2 * hashBytes, next * 2 * hashBytes);
  });
  if (next !== count || hashes.length !== count * 2 * hashBytes) throw damaged();
  return Buffer.from(bytes, 'utf8');
};

const inflated = (packed: Uint8Array): string => {
  try {
    return inflateRawSync(packed, { dictionary, maxOutputLength: limits.entryBytesMaximum }).toString('utf8');
  } catch {
    throw damaged();
  }
};

const damaged = (): CanonicalFailure => new CanonicalFailure('', 'the packed entry is damaged');
