/** The entry that keeps a time stamp of a head of its chain. FORMAT.md, section 10. */
import type { Instant } from '../measure/quantity.ts';
import { CanonicalFailure } from './canonical.ts';
import type { Envelope } from './envelope.ts';
import { type ChainHeadText, readHeadText } from './head-text.ts';

export const stampKind = 'time stamp';

export interface StampBody {
  /** What was stamped. */
  readonly head: string;
  /** What the authority answered, as it came: base64. */
  readonly answer: string;
  /** Of the request, hexadecimal; left out where it had none. */
  readonly nonce?: string;
}
export interface StampEntry {
  readonly seq: number;
  readonly at: Instant;
  readonly head: ChainHeadText;
  readonly answer: Uint8Array;
  readonly nonce?: string;
}

export const stampBody = (head: string, answer: Uint8Array, nonce: string | undefined): StampBody => ({
  head,
  answer: btoa(Array.from(answer, (byte) => String.fromCharCode(byte)).join('')),
  ...(nonce === undefined ? {} : { nonce }),
});

/** Undefined for an entry of another kind. Throws CanonicalFailure where it is none although it says so. */
export const stampNamedBy = (envelope: Envelope): StampEntry | undefined => {
  if (envelope.class !== 'block' || envelope.kind !== stampKind) return undefined;
  const { head: text, answer, nonce } = envelope.body as Partial<StampBody>;
  const head = typeof text === 'string' ? readHeadText(text) : undefined;
  if (head === undefined || head.chain !== envelope.chain || head.seq >= envelope.seq)
    throw new CanonicalFailure('head', 'a time stamp is of an entry before it in its chain');
  if (typeof answer !== 'string' || !/^[A-Za-z0-9+/]+={0,2}$/.test(answer))
    throw new CanonicalFailure('answer', 'base64 is missing');
  return {
    ...{ seq: envelope.seq, at: envelope.at, head },
    answer: Uint8Array.from(atob(answer), (each) => each.charCodeAt(0)),
    ...(typeof nonce === 'string' ? { nonce } : {}),
  };
};
