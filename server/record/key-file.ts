/**
 * The file of the station's private key: beside the folder of the record and never in it, since that folder is copied
 * and handed on. Only the station's own user may read it. A new key is written beside the old one first and takes its
 * place once the record names it, so that a crash at any moment leaves the key that the record goes by.
 */
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { resolve } from 'node:path';
import { createKeyPem, signerOfPem } from './ed25519.ts';
import { RecordRefusal, wordsOf } from './failure.ts';
import type { Signer } from './signer.ts';

export const keyFileOf = (folderOfRecord: string): string => `${resolve(folderOfRecord)}.key.pem`;
const nextFileOf = (folderOfRecord: string): string => `${resolve(folderOfRecord)}.next-key.pem`;

/** The key that the record goes by; made where the record has none yet. Refuses where it is not there. */
export const signerBeside =
  (folder: string) =>
  (keys: readonly string[]): Signer => {
    const file = keyFileOf(folder);
    const wanted = keys.at(-1);
    const next = readIfThere(nextFileOf(folder));
    if (next !== undefined && next.publicKey === wanted) renameSync(nextFileOf(folder), file);
    const found = readIfThere(file);
    if (found !== undefined && (wanted === undefined || found.publicKey === wanted)) return found;
    if (found === undefined && wanted === undefined) return makeKey(file);
    throw new RecordRefusal('no key', found === undefined ? gone(folder, file) : another(folder, file));
  };

/** Signs what leaves the house beside entries, by the key that is there; undefined where none is. */
export const sealBeside = (folder: string): Signer['sign'] | undefined => readIfThere(keyFileOf(folder))?.sign;

/** A key that is ready to take the place of the present one; `take` puts it there once the record names it. */
export const prepareKey = (folder: string): { readonly signer: Signer; readonly take: () => void } => {
  const next = nextFileOf(folder);
  rmSync(next, { force: true });
  return { signer: makeKey(next), take: () => renameSync(next, keyFileOf(folder)) };
};

const makeKey = (file: string): Signer => {
  const pem = createKeyPem();
  const handle = openSync(file, 'wx', 0o600);
  try {
    writeSync(handle, pem);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  return signerOfPem(pem);
};

const readIfThere = (file: string): Signer | undefined => {
  if (!existsSync(file)) return undefined;
  try {
    chmodSync(file, 0o600);
    return signerOfPem(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new RecordRefusal('no key', `${file} cannot be used as the station's key: ${wordsOf(error)}`, error);
  }
};

const without = (folder: string): string =>
  `If it is lost, "ledger key ${folder} --new --lost --reason TEXT" begins another one; whoever verifies the record is then told that the old key did not hand over.`;
const gone = (folder: string, file: string): string =>
  `The record in ${folder} is signed, and its key is not there. Put ${file} back from where it is kept. ${without(folder)}`;
const another = (folder: string, file: string): string =>
  `${file} holds another key than the one that the record in ${folder} is signed by. Put the right one there. ${without(folder)}`;
