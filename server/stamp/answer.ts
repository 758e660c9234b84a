/** The answer of an authority (RFC 3161, 2.4.2; RFC 5652): its status, what it stamped, and the signature over that. */
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Instant } from '../measure/quantity.ts';
import {
  as,
  Fields,
  joined,
  must,
  type Node,
  nameOf,
  numberOf,
  octetsOf,
  readAll,
  tags,
  textOf,
  timeOf,
  Unreadable,
} from './asn1.ts';
import { type Certificate, certificateOf } from './certificate.ts';
import { type Hash, hashOf, type Scheme, schemeOf } from './scheme.ts';

export interface Refusal {
  readonly refused: string;
}
export interface Token {
  readonly imprintHash: Hash;
  readonly imprint: Uint8Array;
  readonly at: Instant;
  /** By how much the authority says that the time may be off; undefined where it does not say. */
  readonly offMilliseconds?: number;
  readonly policy: string;
  readonly serial: string;
  readonly nonce?: string;
  readonly certificates: readonly Certificate[];
  readonly signer: Signer;
  /** What the signature covers by its hash. */
  readonly content: Uint8Array;
}
export interface Signer {
  isIt(certificate: Certificate): boolean;
  readonly hash: Hash;
  readonly scheme: Scheme;
  readonly signature: Uint8Array;
  /** As they were signed. */
  readonly attributes: Uint8Array;
  readonly contentKind: string;
  readonly contentHash: Uint8Array;
  /** By which the authority names its certificate within what it signs (RFC 5035, RFC 5816). */
  readonly certificateHash: { readonly hash: Hash | 'SHA-1'; readonly value: Uint8Array };
}

const names = {
  signedData: '1.2.840.113549.1.7.2',
  stamp: '1.2.840.113549.1.9.16.1.4',
  contentType: '1.2.840.113549.1.9.3',
  messageDigest: '1.2.840.113549.1.9.4',
  certificate: '1.2.840.113549.1.9.16.2.12',
  certificate2: '1.2.840.113549.1.9.16.2.47',
} as const;
export const stampContent: string = names.stamp;

/** Throws Unreadable. */
export const readAnswer = (bytes: Uint8Array): Token | Refusal => {
  const fields = new Fields(as(readAll(bytes, 'the answer'), tags.sequence, 'the answer'));
  const status = new Fields(fields.next('its status', tags.sequence));
  const number = numberOf(status.next('its status'));
  // 0: granted. 1: granted, with what the asker should look at; the imprint is looked at anyway.
  if (number !== 0 && number !== 1) return { refused: refusalText(number, status) };
  return tokenOf(fields.next('the time stamp'));
};

const refusalText = (number: number, status: Fields): string => {
  const told = status.option(tags.sequence)?.children.map(textOf).join(' ') ?? '';
  const failure = status.option(tags.bits);
  const bits = failure === undefined ? [] : bitNumbers(failure);
  const because = bits.map((bit) => failures[bit] ?? `failure ${bit}`);
  return [
    `status ${number}`,
    ...because,
    ...(told === '' ? [] : [`"${told.replace(/\p{C}/gu, ' ').slice(0, 200)}"`]),
  ].join(', ');
};
/** RFC 3161, 2.4.2. */
const failures: Readonly<Record<number, string>> = {
  0: 'it does not take this hash',
  2: 'it does not serve such a request',
  5: 'it could not read the request',
  14: 'its clock is not to be had',
  15: 'it does not stamp by the policy asked for',
  16: 'it does not know an extension of the request',
  17: 'it cannot give what was asked for beside',
  25: 'it failed',
};
const bitNumbers = ({ content }: Node): number[] =>
  [...content.subarray(1)].flatMap((byte, place) =>
    [0, 1, 2, 3, 4, 5, 6, 7].filter((bit) => (byte & (0x80 >> bit)) !== 0).map((bit) => place * 8 + bit),
  );

const tokenOf = (node: Node): Token => {
  const outer = new Fields(as(node, tags.sequence, 'the time stamp'));
  if (nameOf(outer.next('its kind')) !== names.signedData) throw new Unreadable('the time stamp is not signed data');
  const data = new Fields(must(outer.next('its content', 0xa0).children[0], 'its content'));
  data.next('its version', tags.integer);
  data.next('its hashes', tags.set);
  const inside = new Fields(data.next('what is stamped', tags.sequence));
  if (nameOf(inside.next('its kind')) !== names.stamp) throw new Unreadable('what is signed is no time stamp');
  const content = octetsOf(must(inside.next('what is stamped', 0xa0).children[0], 'what is stamped'));
  const certificates = data.option(0xa0)?.children.filter(({ tag }) => tag === tags.sequence) ?? [];
  data.option(0xa1);
  const [signer, ...more] = data.next('its signature', tags.set).children;
  if (more.length > 0) throw new Unreadable('it bears more than one signature, which no time stamp does');
  return {
    ...stampOf(content),
    content,
    certificates: certificates.map(certificateOf),
    signer: signerOf(must(signer, 'its signature')),
  };
};

const stampOf = (content: Uint8Array): Omit<Token, 'certificates' | 'signer' | 'content'> => {
  const fields = new Fields(as(readAll(content, 'what is stamped'), tags.sequence, 'what is stamped'));
  fields.next('its version', tags.integer);
  const policy = nameOf(fields.next('its policy'));
  const imprint = new Fields(fields.next('its imprint', tags.sequence));
  const imprintHash = hashOf(imprint.next('its hash', tags.sequence));
  const serial = bytesToHex(fields.next('its number', tags.integer).content);
  const at = timeOf(fields.next('its time', tags.generalizedTime));
  const accuracy = fields.option(tags.sequence);
  fields.option(tags.boolean);
  const nonce = fields.option(tags.integer);
  return {
    ...{ imprintHash, imprint: imprint.next('its imprint', tags.octets).content, at, policy, serial },
    ...(accuracy === undefined ? {} : { offMilliseconds: off(accuracy) }),
    ...(nonce === undefined ? {} : { nonce: bytesToHex(nonce.content) }),
  };
};

const off = (accuracy: Node): number => {
  const fields = new Fields(accuracy);
  const seconds = fields.option(tags.integer);
  const [milli, micro] = [fields.option(0x80), fields.option(0x81)];
  const whole = (node: Node | undefined): number => node?.content.reduce((sum, byte) => sum * 256 + byte, 0) ?? 0;
  return whole(seconds) * 1000 + whole(milli) + Math.ceil(whole(micro) / 1000);
};

const signerOf = (node: Node): Signer => {
  const fields = new Fields(node);
  fields.next('its version', tags.integer);
  const who = fields.next('who signed');
  const hash = hashOf(fields.next('its hash', tags.sequence));
  const attributes = fields.next('what is signed', 0xa0);
  const scheme = schemeOf(fields.next('the way it is signed', tags.sequence), hash);
  const signature = octetsOf(fields.next('the signature', tags.octets));
  const values = new Map(
    attributes.children.map(
      ({ children: [kind, value] }) => [nameOf(must(kind, 'a kind')), value?.children[0]] as const,
    ),
  );
  return {
    isIt: isNamed(who),
    ...{ hash, scheme, signature },
    // Signed as a set, carried as [0] (RFC 5652, 5.4).
    attributes: joined([Uint8Array.of(tags.set), attributes.whole.subarray(1)]),
    contentKind: nameOf(must(values.get(names.contentType), 'the kind of what is signed')),
    contentHash: octetsOf(must(values.get(names.messageDigest), 'the hash of what is signed')),
    certificateHash: certificateHash(values.get(names.certificate2), values.get(names.certificate)),
  };
};

/** By issuer and number, or by the name of its key. */
const isNamed = (who: Node): Signer['isIt'] => {
  if (who.tag === 0x80) return ({ keyId }) => keyId !== undefined && same(keyId, who.content);
  const [issuer, serial] = as(who, tags.sequence, 'who signed').children;
  return (certificate) =>
    same(certificate.issuer, must(issuer, 'who signed').whole) &&
    same(certificate.serial, must(serial, 'who signed').content);
};
const same = (a: Uint8Array, b: Uint8Array): boolean => bytesToHex(a) === bytesToHex(b);

const certificateHash = (second: Node | undefined, first: Node | undefined): Signer['certificateHash'] => {
  const named = must((second ?? first)?.children[0]?.children[0], 'the certificate within what is signed');
  const fields = new Fields(named);
  const algorithm = second === undefined ? undefined : fields.option(tags.sequence);
  const hash = second === undefined ? 'SHA-1' : algorithm === undefined ? 'SHA-256' : hashOf(algorithm);
  return { hash, value: fields.next('the hash of the certificate', tags.octets).content };
};
