/**
 * Signatures by the browser's own cryptography, which answers later, for an inspection that asks at once: the inspection is
 * run to hear what it asks, and again with the answers, until it asks nothing new.
 */
import { derOfKey } from '../../server/ledger/keys.ts';
import type { Mathematics } from '../../server/proof/stamps.ts';
import { as, Fields, nameOf, octetsOf, readAll, tags } from '../../server/stamp/asn1.ts';
import type { Scheme } from '../../server/stamp/scheme.ts';

export type WithSignatures<T> = { readonly seen: T; readonly checked: boolean };

type Answer = boolean | 'cannot';

export const withSignatures = async <T>(inspect: (mathematics: Mathematics) => T): Promise<WithSignatures<T>> => {
  const answers = new Map<string, Answer>();
  for (;;) {
    const open = new Map<string, () => Promise<Answer>>();
    const answered = (name: string, find: () => Promise<Answer>): boolean => {
      const known = answers.get(name);
      if (known !== undefined) return known === true;
      open.set(name, find);
      return true;
    };
    const seen = inspect({
      verify: (key, bytes, signature) =>
        answered([key, bytes.join(), signature.join()].join(' '), () =>
          verified(derOfKey(key), { kind: 'Ed25519' }, bytes, signature),
        ),
      byCertificate: (key, scheme, bytes, signature) =>
        answered([key.join(), JSON.stringify(scheme), bytes.join(), signature.join()].join(' '), () =>
          verified(key, scheme, bytes, signature),
        ),
    });
    if (open.size === 0) return { seen, checked: ![...answers.values()].includes('cannot') };
    for (const [name, find] of open) answers.set(name, await find());
  }
};

const keys = new Map<string, Promise<CryptoKey>>();

const verified = async (der: Uint8Array, scheme: Scheme, bytes: Uint8Array, signature: Uint8Array): Promise<Answer> => {
  let key: CryptoKey;
  let curve: Curve | undefined;
  try {
    curve = scheme.kind === 'ECDSA' ? curveOf(der) : undefined;
    const name = `${der.join()} ${JSON.stringify(scheme)}`;
    const made =
      keys.get(name) ?? crypto.subtle.importKey('spki', own(der), imported(scheme, curve), false, ['verify']);
    keys.set(name, made);
    key = await made;
  } catch {
    return 'cannot';
  }
  try {
    const fixed = curve === undefined ? signature : plainPair(signature, curve.bytes);
    return await crypto.subtle.verify(used(scheme), key, own(fixed), own(bytes));
  } catch {
    return false;
  }
};

const imported = (scheme: Scheme, curve: Curve | undefined): RsaHashedImportParams | EcKeyImportParams | Algorithm => {
  if (scheme.kind === 'Ed25519') return { name: 'Ed25519' };
  if (curve !== undefined) return { name: 'ECDSA', namedCurve: curve.name };
  return { name: scheme.kind === 'RSA' ? 'RSASSA-PKCS1-v1_5' : 'RSA-PSS', hash: scheme.hash };
};

const used = (scheme: Scheme): AlgorithmIdentifier | EcdsaParams | RsaPssParams => {
  if (scheme.kind === 'RSA-PSS') return { name: 'RSA-PSS', saltLength: scheme.salt };
  if (scheme.kind === 'ECDSA') return { name: 'ECDSA', hash: scheme.hash };
  return scheme.kind === 'RSA' ? 'RSASSA-PKCS1-v1_5' : 'Ed25519';
};

interface Curve {
  readonly name: string;
  readonly bytes: number;
}
const curves: Readonly<Record<string, Curve>> = {
  '1.2.840.10045.3.1.7': { name: 'P-256', bytes: 32 },
  '1.3.132.0.34': { name: 'P-384', bytes: 48 },
  '1.3.132.0.35': { name: 'P-521', bytes: 66 },
};
/** Browsers want to be told what stands in the key. */
const curveOf = (der: Uint8Array): Curve => {
  const algorithm = new Fields(new Fields(readAll(der, 'the key')).next('its kind', tags.sequence));
  algorithm.next('its kind');
  const curve = curves[nameOf(algorithm.next('its curve'))];
  if (curve === undefined) throw new Error('a curve that no browser knows');
  return curve;
};

/** Certificates carry the two numbers of ECDSA as DER; browsers take them side by side, filled up. */
const plainPair = (der: Uint8Array, size: number): Uint8Array => {
  const fields = new Fields(as(readAll(der, 'the signature'), tags.sequence, 'the signature'));
  const pair = new Uint8Array(2 * size);
  for (const place of [0, size]) {
    const number = octetsOf(fields.next('a number', tags.integer));
    const digits = number.subarray(number.findIndex((byte) => byte !== 0));
    if (digits.length > size) throw new Error('a number that is too great');
    pair.set(digits, place + size - digits.length);
  }
  return pair;
};

const own = (bytes: Uint8Array): Uint8Array<ArrayBuffer> => Uint8Array.from(bytes);
