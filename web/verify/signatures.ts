/**
 * Signatures by the browser's own cryptography, which answers later, for an inspection that asks at once: the inspection is
 * run twice, first to hear what it asks, then with the answers.
 */
import { derOfKey } from '../../server/ledger/keys.ts';
import type { VerifySignature } from '../../server/ledger/signatures.ts';

export type WithSignatures<T> = { readonly seen: T; readonly checked: boolean };

export const withSignatures = async <T>(inspect: (verify: VerifySignature) => T): Promise<WithSignatures<T>> => {
  const asked = new Map<string, Parameters<VerifySignature>>();
  inspect((...question) => {
    asked.set(nameOf(...question), question);
    return true;
  });
  const answers = new Map<string, boolean>();
  let checked = true;
  for (const [name, question] of asked) {
    const answer = await verified(...question);
    if (answer === 'cannot') checked = false;
    answers.set(name, answer === true);
  }
  return { seen: inspect((...question) => answers.get(nameOf(...question)) === true), checked };
};

const nameOf: (...question: Parameters<VerifySignature>) => string = (key, bytes, signature) =>
  [key, bytes.join(), signature.join()].join(' ');

const keys = new Map<string, Promise<CryptoKey>>();

const verified = async (...[key, bytes, signature]: Parameters<VerifySignature>): Promise<boolean | 'cannot'> => {
  let publicKey: CryptoKey;
  try {
    const made = keys.get(key) ?? crypto.subtle.importKey('spki', own(derOfKey(key)), 'Ed25519', false, ['verify']);
    keys.set(key, made);
    publicKey = await made;
  } catch {
    return 'cannot';
  }
  return crypto.subtle.verify('Ed25519', publicKey, own(signature), own(bytes));
};

const own = (bytes: Uint8Array): Uint8Array<ArrayBuffer> => Uint8Array.from(bytes);
