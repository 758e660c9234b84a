/** What speaks against the keys of a record, though each of its entries may stand. */
import type { Certificate } from '../stamp/certificate.ts';
import type { ChainHeadText } from './head-text.ts';
import { fingerprintOf, type RecordKey } from './keys.ts';
import { signerOfHead, type VerifySignature } from './signatures.ts';

/** What whoever verifies has from another hand than the record's: paper, a photo, an older package. */
export interface KnownElsewhere {
  readonly knownHeads?: readonly ChainHeadText[];
  /** Fingerprint of the key, or its beginning: one of the record's keys must be called so. */
  readonly knownKey?: string;
  /** Certificates of time stamp authorities that the reader trusts; undefined where none were given. */
  readonly trusted?: readonly Certificate[];
}
export type KeyFault =
  /** Whoever made the key did not have the one before it. */
  | { readonly kind: 'not handed over'; readonly key: RecordKey }
  /** A head given with --head carries a signature by none of the record's keys. */
  | { readonly kind: 'head of another key'; readonly head: ChainHeadText }
  | { readonly kind: 'not the known key'; readonly known: string };

/** What speaks against the keys themselves, told beside the entries. */
export const keyFaultsOf = (
  keys: readonly RecordKey[],
  { knownHeads = [], knownKey }: KnownElsewhere,
  verify: VerifySignature,
): KeyFault[] => [
  ...keys.flatMap((key): KeyFault[] => (key.handedOver ? [] : [{ kind: 'not handed over', key }])),
  ...knownHeads.flatMap((head): KeyFault[] =>
    head.signature === undefined || signerOfHead(head, head.signature, keys, verify) !== undefined
      ? []
      : [{ kind: 'head of another key', head }],
  ),
  ...(knownKey === undefined || keys.some(({ key }) => fingerprintOf(key).startsWith(knownKey))
    ? []
    : [{ kind: 'not the known key', known: knownKey } as const]),
];
