/** Ed25519 (RFC 8032) and SHA-256 by Node's own cryptography: keys as PEM files that OpenSSL reads too. */
import {
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto';
import type { HashOf } from '../ledger/hash.ts';
import { derOfKey } from '../ledger/keys.ts';
import type { VerifySignature } from '../ledger/signatures.ts';
import type { Signer } from './signer.ts';

/** A new private key (PKCS #8). */
export const createKeyPem = (): string =>
  generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' }).toString();

/** Throws for what is no Ed25519 private key. */
export const signerOfPem = (pem: string): Signer => {
  const key = createPrivateKey(pem);
  if (key.asymmetricKeyType !== 'ed25519') throw new Error('it is no Ed25519 key');
  const der = createPublicKey(key).export({ type: 'spki', format: 'der' });
  return { publicKey: der.subarray(-32).toString('hex'), sign: (bytes) => sign(null, bytes, key) };
};

const publicKeys = new Map<string, KeyObject>();
const publicKeyOf = (key: string): KeyObject => {
  const known =
    publicKeys.get(key) ?? createPublicKey({ key: Buffer.from(derOfKey(key)), format: 'der', type: 'spki' });
  if (publicKeys.size < 100) publicKeys.set(key, known);
  return known;
};

export const verifyEd25519: VerifySignature = (key, bytes, signature) => {
  try {
    return verify(null, bytes, publicKeyOf(key), signature);
  } catch {
    return false;
  }
};

export const sha256: HashOf = (bytes) => createHash('sha256').update(bytes).digest('hex');
