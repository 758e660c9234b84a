/** Reading the bytes of a block field by field: each is what it must be, or the reading ends with its name. */
import { limits } from '../measure/limits.ts';
import { CanonicalFailure, decodeTrusted } from './canonical.ts';
import { readSteps } from './columns.ts';
import { scansFormat } from './scans-columns.ts';

export type Found = Readonly<Record<string, unknown>>;

/** The whole of a block's bytes, of the format that is read here. */
export const documentOf = (bytes: Uint8Array, count: number): Found => {
  if (count > limits.scansPerBlockMaximum) throw new CanonicalFailure('scans', 'more than a block holds');
  const document = object(decodeTrusted(bytes, limits.blockBytesMaximum), 'scans');
  if (document.format !== scansFormat) {
    throw new CanonicalFailure('format', `found ${String(document.format)}; this program reads ${scansFormat}`);
  }
  return document;
};

export const stepsOf = (found: Found, field: string, count: number): readonly number[] => {
  const values = readSteps(found[field], field);
  if (values.length !== count) throw new CanonicalFailure(field, `${values.length} values where ${count} are needed`);
  return values;
};

export const object = (found: unknown, field: string): Found => {
  if (typeof found !== 'object' || found === null || Array.isArray(found))
    throw new CanonicalFailure(field, 'an object is missing');
  return found as Found;
};
export const list = (found: unknown, field: string): readonly unknown[] => {
  if (!Array.isArray(found)) throw new CanonicalFailure(field, 'a list is missing');
  return found;
};
export const text = (found: unknown, field: string): string => {
  if (typeof found !== 'string') throw new CanonicalFailure(field, 'text is missing');
  return found;
};
