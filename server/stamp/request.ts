/** A question for a time stamp (RFC 3161, 2.4.1): the imprint of a head, a nonce, and that the certificate shall come along. */
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { Fields, joined, readAll, sameBytes, tags, Unreadable } from './asn1.ts';
import { hashed, hashOf } from './scheme.ts';

export interface StampRequest {
  /** SHA-256 of what is to be stamped. */
  readonly imprint: Uint8Array;
  /** As the integer stands in DER, hexadecimal; undefined where it has none. */
  readonly nonce?: string;
}

/** Bytes of the file that any tool sends as application/timestamp-query. The nonce: 8 random bytes. */
export const stampRequest = (text: Uint8Array, random: Uint8Array): Uint8Array =>
  der(
    tags.sequence,
    der(tags.integer, Uint8Array.of(1)),
    der(tags.sequence, hexToBytes(sha256Identifier), der(tags.octets, hashed('SHA-256', text))),
    // Positive and without a leading zero, so that it has one form only.
    der(
      tags.integer,
      Uint8Array.from(random, (byte, place) => (place === 0 ? (byte & 0x7f) | 0x40 : byte)),
    ),
    der(tags.boolean, Uint8Array.of(0xff)),
  );

const sha256Identifier = '300d06096086480165030402010500';

const der = (tag: number, ...content: readonly Uint8Array[]): Uint8Array => {
  const inner = joined(content);
  if (inner.length > 127) throw new Error('a request is shorter than that');
  return joined([Uint8Array.of(tag, inner.length), inner]);
};

/** Throws Unreadable. */
export const readRequest = (bytes: Uint8Array): StampRequest => {
  const fields = new Fields(readAll(bytes, 'the request'));
  fields.next('its version', tags.integer);
  const imprint = new Fields(fields.next('its imprint', tags.sequence));
  if (hashOf(imprint.next('its hash', tags.sequence)) !== 'SHA-256')
    throw new Unreadable('its imprint is not made with SHA-256');
  const { content } = imprint.next('its imprint', tags.octets);
  fields.option(tags.name);
  const nonce = fields.option(tags.integer);
  return { imprint: content, ...(nonce === undefined ? {} : { nonce: bytesToHex(nonce.content) }) };
};

export const isImprintOf = (imprint: Uint8Array, text: Uint8Array): boolean =>
  sameBytes(imprint, hashed('SHA-256', text));
