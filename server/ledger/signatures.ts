/**
 * Looks at the signatures of a chain, entry by entry: from its first signed entry on each must carry the signature of
 * the key that holds there. The mathematics is handed in, since this room knows neither Node nor a browser.
 */
import { hexToBytes } from '@noble/hashes/utils.js';
import type { Envelope } from './envelope.ts';
import { type ChainHeadText, headBytes } from './head-text.ts';
import { stationChain } from './item.ts';
import { keyNamedBy, type RecordKey } from './keys.ts';

/** Whether the key, in hexadecimal digits, signed the bytes. Never throws: what is no signature is none. */
export type VerifySignature = (key: string, bytes: Uint8Array, signature: Uint8Array) => boolean;

export interface StoredSignature {
  /** Number of the key, 1 for the first of the record. */
  readonly key: number;
  readonly signature: Uint8Array;
}
export interface SignatureWatch {
  /** What is wrong with the signature of an entry that stands otherwise. */
  see(envelope: Envelope, hash: string, stored: StoredSignature | undefined): string | undefined;
  /** The first signed entry; undefined where none is. */
  readonly from: () => number | undefined;
}

/** `keys` is shared by all chains of a record: the station's chain, looked at first, fills it. */
export const watchSignatures = (keys: RecordKey[], verify: VerifySignature): SignatureWatch => {
  let from: number | undefined;
  let newest = 1;
  const see: SignatureWatch['see'] = (envelope, hash, stored) => {
    const named = keyNamedBy(envelope);
    if (stored === undefined) {
      if (named !== undefined) return 'it names a key and carries no signature';
      return from === undefined ? undefined : `it carries no signature, and entry ${from} before it does`;
    }
    if (named !== undefined) {
      const number = keys.length + 1;
      const handedOver = stored.key === Math.max(1, number - 1);
      keys.push({ ...named, number, seq: envelope.seq, at: envelope.at, handedOver });
    } else if (stored.key < newest) return `an older key signed it than the entries before it`;
    const key = keys[stored.key - 1];
    if (key === undefined) return `key ${stored.key} is said to have signed it, and the record names no such key`;
    if (envelope.chain === stationChain && stored.key < keys.length - (named === undefined ? 0 : 1))
      return `key ${stored.key} is said to have signed it, and another one held then`;
    if (!verify(key.key, headBytes({ chain: envelope.chain, seq: envelope.seq, hash }), stored.signature))
      return `key ${stored.key} did not sign it as it stands`;
    from ??= envelope.seq;
    newest = stored.key;
    return undefined;
  };
  return { see, from: () => from };
};

/** Number of the key of this record that signed a head known from elsewhere; undefined where none did. */
export const signerOfHead = (
  head: ChainHeadText,
  signed: string,
  keys: readonly RecordKey[],
  verify: VerifySignature,
): number | undefined => {
  const signature = hexToBytes(signed);
  return keys.find(({ key }) => verify(key, headBytes(head), signature))?.number;
};
