/** Asked before something is folded: can it be recorded? What is judged and cannot be kept must not exist. */
import { limits } from '../measure/limits.ts';
import type { Scan } from '../weld/scan.ts';
import { CanonicalFailure } from './canonical.ts';
import { linkEntry } from './envelope.ts';
import { noHash } from './hash.ts';
import { type EntryItem, type Item, isJointChain } from './item.ts';
import { encodeScans } from './scans-write.ts';

/** Throws CanonicalFailure, which names the field, for an item that the record would refuse. */
export const assertRecordable = (item: Item): void => {
  assertChain(item.chain);
  if (item.type === 'entry') assertEntry(item);
  else scanBytes(item.scan);
};

export const assertChain = (chain: string): void => {
  if (chain.length === 0 || chain.length > limits.nameMaximum) {
    throw new CanonicalFailure('chain', `${chain.length} characters; 1 to ${limits.nameMaximum} are allowed`);
  }
};

/** The bytes of one scan, within their bound. */
export const scanBytes = (scan: Scan): Uint8Array => {
  const bytes = encodeScans([scan]);
  if (bytes.length > limits.scanBytesMaximum) {
    throw new CanonicalFailure('scan', `${bytes.length} bytes; at most ${limits.scanBytesMaximum} are recorded`);
  }
  return bytes;
};

/** The names of the chains that are no joint's are not free for one. */
export const assertOpening = (item: EntryItem): void => {
  if (!isJointChain(item.chain) && item.kind === 'opened') {
    throw new CanonicalFailure(
      'chain',
      `no joint can be called "${item.chain}": that is a chain of the station itself`,
    );
  }
};

const assertEntry = (item: EntryItem): void => {
  assertOpening(item);
  // Room for the longest sequence number, so that what fits here fits at any place of the chain.
  linkEntry(noHash, { ...item, seq: Number.MAX_SAFE_INTEGER });
};
