/** A package as bytes and back: the same files give the same bytes, and what comes from a stranger is bounded. */
import { type Unzipped, unzipSync, zipSync } from 'fflate';
import { limits } from '../measure/limits.ts';
import type { Files } from './layout.ts';

/** ZIP knows no earlier time; months count from 0, and local time is what is stored. */
const zipTime = '1980-01-01T00:00:00';

/** Names in ascending order. */
export const zipped = (files: Files): Uint8Array =>
  zipSync(
    Object.fromEntries(
      Object.keys(files)
        .sort()
        .map((name) => [name, [files[name]!, { mtime: zipTime, level: 6, os: 0, attrs: 0 }]]),
    ),
  );

export type Unpacked = { readonly files: Files } | { readonly refused: string };

export const unzipped = (bytes: Uint8Array): Unpacked => {
  if (bytes.length > limits.packageMaximum) return { refused: 'It is larger than a package can be.' };
  let total = 0;
  let names = 0;
  const repeated = new Set<string>();
  const seen = new Set<string>();
  let files: Unzipped;
  try {
    files = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        total += originalSize;
        names += 1;
        if (seen.has(name)) repeated.add(name);
        seen.add(name);
        if (total > limits.unpackedMaximum || names > limits.packageFilesMaximum) throw new Error('too large');
        return !name.endsWith('/');
      },
    });
  } catch (error) {
    const told = error instanceof Error ? error.message : String(error);
    return { refused: `It cannot be unpacked (${told}). It is damaged, or no package.` };
  }
  const [twice] = repeated;
  if (twice !== undefined) return { refused: `It holds two files with the name ${twice}: no package is made so.` };
  if (files['entries.jsonl'] === undefined)
    return { refused: 'There is no entries.jsonl in it: it is no package of a joint.' };
  return { files };
};
