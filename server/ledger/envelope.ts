/**
 * One entry of a chain: what is said, by whom, when, and the hash of the entry before it. The bytes of
 * the whole envelope are hashed, format version included, so that no part of it can change unseen.
 */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Signed } from '../weld/signed.ts';
import { CanonicalFailure, decodeCanonical, decodeTrusted, encodeCanonical } from './canonical.ts';
import { sha256Hex } from './hash.ts';
import type { EntryClass } from './item.ts';

const envelopeFormat = 1;

export interface Entry extends Signed {
  readonly chain: string;
  /** Place in the chain, counted from 1. */
  readonly seq: number;
  readonly at: Instant;
  readonly class: EntryClass;
  readonly kind: string;
  readonly body: unknown;
}
export interface Envelope extends Entry {
  readonly format: typeof envelopeFormat;
  readonly previous: string;
}
export interface Link {
  readonly bytes: Uint8Array;
  /** SHA-256 of the bytes, 64 small hexadecimal digits. */
  readonly hash: string;
}

/** The entry as bytes that name the one before it. Throws CanonicalFailure for what cannot be recorded. */
export const linkEntry = (previous: string, entry: Entry): Link => {
  checkText('chain', entry.chain);
  checkText('who', entry.who);
  checkText('kind', entry.kind);
  for (const key of besideName) if (entry[key] !== undefined) checkText(key, entry[key]);
  if (!Number.isSafeInteger(entry.at)) throw new CanonicalFailure('at', 'not an instant in whole milliseconds');
  const { chain, seq, at, who, role, person, proof, kind, body } = entry;
  const bytes = encodeCanonical({
    format: envelopeFormat,
    chain,
    seq,
    at,
    who,
    role,
    person,
    proof,
    class: entry.class,
    kind,
    body: body ?? null,
    previous,
  });
  return { bytes, hash: sha256Hex(bytes) };
};

/** Reads bytes whose hash has been or will be checked elsewhere. */
export const readEnvelope = (bytes: Uint8Array): Envelope => asEnvelope(decodeTrusted(bytes));

/** Reads bytes that nothing vouches for: refuses all that linkEntry would not have written. */
export const readEnvelopeStrictly = (bytes: Uint8Array): Envelope => asEnvelope(decodeCanonical(bytes));

const checkText = (field: string, text: string): void => {
  if (text.length === 0 || text.length > limits.nameMaximum) {
    throw new CanonicalFailure(field, `${text.length} characters; 1 to ${limits.nameMaximum} are allowed`);
  }
};

/** What may stand beside a name. */
const besideName = ['role', 'person', 'proof'] as const;
const keys = new Set(['at', 'body', 'chain', 'class', 'format', 'kind', 'previous', 'seq', 'who', ...besideName]);
const classes = new Set<unknown>(['input', 'conclusion', 'block']);

const asEnvelope = (value: unknown): Envelope => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new CanonicalFailure('', 'an entry is an object');
  }
  const found = value as Record<string, unknown>;
  if (found.format !== envelopeFormat) {
    throw new CanonicalFailure('format', `found ${String(found.format)}; this program reads ${envelopeFormat}`);
  }
  const unknown = Object.keys(found).find((key) => !keys.has(key));
  if (unknown !== undefined) throw new CanonicalFailure(unknown.slice(0, 40), 'not a field of an entry');
  for (const key of ['chain', 'who', 'kind', 'previous'] as const) {
    if (typeof found[key] !== 'string') throw new CanonicalFailure(key, 'text is missing');
  }
  for (const key of ['seq', 'at'] as const) {
    if (!Number.isSafeInteger(found[key])) throw new CanonicalFailure(key, 'an integer is missing');
  }
  for (const key of besideName) {
    if (found[key] !== undefined && typeof found[key] !== 'string') throw new CanonicalFailure(key, 'not text');
  }
  if (!classes.has(found.class)) throw new CanonicalFailure('class', 'not input, conclusion or block');
  if (found.body === undefined) throw new CanonicalFailure('body', 'missing');
  return value as Envelope;
};
