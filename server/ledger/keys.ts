/** The keys of a record, as its station's chain names them one after the other, and what a key is called. */
import { hexToBytes } from '@noble/hashes/utils.js';
import { CanonicalFailure } from './canonical.ts';
import type { Envelope } from './envelope.ts';
import { sha256Hex } from './hash.ts';
import { stationChain } from './item.ts';

export const keyKind = 'key';

export interface KeyBody {
  /** The 32 bytes of an Ed25519 public key, 64 hexadecimal digits. */
  readonly key: string;
  /** Why it took the place of the one before it. */
  readonly reason?: string;
}
export interface RecordKey extends KeyBody {
  /** 1 for the first key of the record. */
  readonly number: number;
  /** Of its entry in the station's chain. */
  readonly seq: number;
  readonly at: number;
  /** Signed by the key before it; true for the first. False: whoever made it did not have that key. */
  readonly handedOver: boolean;
}

/** What the entry says where it names a key. Throws CanonicalFailure where it should and does not. */
export const keyNamedBy = (envelope: Envelope): KeyBody | undefined => {
  if (envelope.chain !== stationChain || envelope.class !== 'block' || envelope.kind !== keyKind) return undefined;
  const { key, reason } = envelope.body as Partial<KeyBody>;
  if (typeof key !== 'string' || !/^[0-9a-f]{64}$/.test(key))
    throw new CanonicalFailure('key', 'no Ed25519 public key');
  return { key, ...(typeof reason === 'string' ? { reason } : {}) };
};

/** DER of the SubjectPublicKeyInfo (RFC 8410): a constant beginning and the key. */
const derBegins = '302a300506032b6570032100';
export const derOfKey = (key: string): Uint8Array => hexToBytes(derBegins + key);

/** What a key is called: the SHA-256 of its DER. */
export const fingerprintOf = (key: string): string => sha256Hex(derOfKey(key));

/** As OpenSSL reads it (RFC 7468). */
export const pemOfKey = (key: string): string =>
  `-----BEGIN PUBLIC KEY-----\n${btoa(String.fromCharCode(...derOfKey(key)))}\n-----END PUBLIC KEY-----\n`;
