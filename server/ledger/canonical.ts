/**
 * Canonical bytes: one value has one text, so that its hash means something. JSON in UTF-8 without
 * spaces, keys in order of their UTF-16 code units, integers as digits. A number that is no safe integer
 * is written as text: "#" and its shortest plain decimal. Text that begins with "#" gets a second one.
 *
 * Promises: decode(encode(x)) equals x for every finite number, text, boolean, null, list and plain
 * object of these (absent and undefined properties are the same; -0 is 0). Decode refuses every text
 * that encode would not write, so that two different texts never stand for one value.
 */
import { limits } from '../measure/limits.ts';
import { plainDecimal, readPlainDecimal } from './plain-decimal.ts';

/** What cannot be recorded, with the path of the field, or bytes that are not what this program writes. */
export class CanonicalFailure extends Error {
  readonly field: string;
  constructor(field: string, why: string) {
    super(`${field === '' ? 'the value' : field}: ${why}`);
    this.name = 'CanonicalFailure';
    this.field = field;
  }
}

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

export const encodeCanonical = (value: unknown, bytesMaximum: number = limits.entryBytesMaximum): Uint8Array => {
  const bytes = encoder.encode(canonicalText(value));
  if (bytes.length > bytesMaximum) {
    throw new CanonicalFailure('', `it takes ${bytes.length} bytes; at most ${bytesMaximum} are recorded in one entry`);
  }
  return bytes;
};

export const canonicalText = (value: unknown): string => write(value, '', 0);

/** Reads back. Throws CanonicalFailure for anything that encodeCanonical would not have written. */
export const decodeCanonical = (bytes: Uint8Array, bytesMaximum: number = limits.entryBytesMaximum): unknown => {
  const text = textOf(bytes, bytesMaximum);
  const value = parse(text);
  if (canonicalText(value) !== text) throw new CanonicalFailure('', 'the text is not in canonical form');
  return value;
};

/** Reads back without the proof that the text is the only one: for bytes whose hash vouches for them. */
export const decodeTrusted = (bytes: Uint8Array, bytesMaximum: number = limits.entryBytesMaximum): unknown =>
  parse(textOf(bytes, bytesMaximum));

const textOf = (bytes: Uint8Array, bytesMaximum: number): string => {
  if (bytes.length > bytesMaximum) throw new CanonicalFailure('', `more than ${bytesMaximum} bytes`);
  try {
    return decoder.decode(bytes);
  } catch {
    throw new CanonicalFailure('', 'the bytes are not UTF-8 text');
  }
};

const parse = (text: string): unknown => {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new CanonicalFailure('', 'the text is not JSON');
  }
  return revive(value, '', 0);
};

const write = (value: unknown, field: string, depth: number): string => {
  switch (typeof value) {
    case 'number':
      if (Number.isSafeInteger(value)) return value === 0 ? '0' : String(value);
      if (!Number.isFinite(value)) throw new CanonicalFailure(field, `${value} is not a number that can be recorded`);
      return `"#${plainDecimal(value)}"`;
    case 'string':
      return JSON.stringify(value.startsWith('#') ? `#${value}` : value);
    case 'boolean':
      return value ? 'true' : 'false';
    case 'object':
      if (value === null) return 'null';
      if (depth >= limits.canonicalDepthMaximum) {
        throw new CanonicalFailure(field, `nested deeper than ${limits.canonicalDepthMaximum}`);
      }
      return Array.isArray(value) ? writeList(value, field, depth) : writeObject(value, field, depth);
    default:
      throw new CanonicalFailure(field, `a ${typeof value} cannot be recorded`);
  }
};

const writeList = (list: readonly unknown[], field: string, depth: number): string => {
  // The columns of a block are long lists of integers; they need no path and no second look.
  if (list.every(Number.isSafeInteger)) return JSON.stringify(list);
  return `[${list.map((item, index) => write(item, at(field, index), depth + 1)).join(',')}]`;
};

const writeObject = (value: object, field: string, depth: number): string => {
  const prototype = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) {
    throw new CanonicalFailure(field, 'only plain objects can be recorded');
  }
  const members: string[] = [];
  for (const key of Object.keys(value).sort()) {
    const member = (value as Record<string, unknown>)[key];
    if (member !== undefined) members.push(`${JSON.stringify(key)}:${write(member, at(field, key), depth + 1)}`);
  }
  return `{${members.join(',')}}`;
};

const at = (field: string, key: string | number): string => (field === '' ? String(key) : `${field}.${key}`);

/** Turns "#" texts back in place; JSON.parse has made the objects for us alone. */
const revive = (value: unknown, field: string, depth: number): unknown => {
  if (typeof value === 'string') return reviveText(value, field);
  if (typeof value === 'number') {
    if (!Number.isSafeInteger(value)) throw new CanonicalFailure(field, 'a bare number that is no integer');
    return value;
  }
  if (typeof value !== 'object' || value === null) return value;
  if (depth >= limits.canonicalDepthMaximum) {
    throw new CanonicalFailure(field, `nested deeper than ${limits.canonicalDepthMaximum}`);
  }
  if (Array.isArray(value)) {
    for (let index = 0; index < value.length; index += 1) {
      const item: unknown = value[index];
      if (!Number.isSafeInteger(item)) value[index] = revive(item, at(field, index), depth + 1);
    }
    return value;
  }
  for (const [key, member] of Object.entries(value)) {
    const revived = revive(member, at(field, key), depth + 1);
    if (revived !== member) {
      Object.defineProperty(value, key, { value: revived, enumerable: true, writable: true, configurable: true });
    }
  }
  return value;
};

const reviveText = (text: string, field: string): string | number => {
  if (!text.startsWith('#')) return text;
  if (text.startsWith('##')) return text.slice(1);
  const number = readPlainDecimal(text.slice(1));
  if (number === undefined)
    throw new CanonicalFailure(field, `"${text.slice(0, 40)}" is not a number in canonical form`);
  return number;
};
