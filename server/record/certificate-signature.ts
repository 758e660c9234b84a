/** Signatures by the keys of certificates, by Node's own cryptography, and all of it for whoever verifies. */
import { constants, createPublicKey, type VerifyKeyObjectInput, verify } from 'node:crypto';
import type { Mathematics } from '../proof/stamps.ts';
import type { VerifyByCertificate } from '../stamp/scheme.ts';
import { verifyEd25519 } from './ed25519.ts';

/** What Node can, for an inspection. */
export const mathematics: Mathematics = {
  verify: verifyEd25519,
  byCertificate: (...question) => verifyByCertificate(...question),
};

export const verifyByCertificate: VerifyByCertificate = (publicKey, scheme, bytes, signature) => {
  try {
    const key = createPublicKey({ key: Buffer.from(publicKey), format: 'der', type: 'spki' });
    // A key signs in its own way only, whatever is said of it.
    const kind =
      scheme.kind === 'RSA-PSS' ? /^rsa/ : { RSA: /^rsa$/, ECDSA: /^ec$/, Ed25519: /^ed25519$/ }[scheme.kind];
    if (!kind.test(key.asymmetricKeyType ?? '')) return false;
    const padded: VerifyKeyObjectInput =
      scheme.kind === 'RSA-PSS' ? { key, padding: constants.RSA_PKCS1_PSS_PADDING, saltLength: scheme.salt } : { key };
    return verify(scheme.kind === 'Ed25519' ? null : scheme.hash.replace('-', ''), bytes, padded, signature);
  } catch {
    return false;
  }
};
