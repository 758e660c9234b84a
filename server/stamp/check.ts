/** Is an answer a time stamp of this text, by whoever its certificate names, and is that certificate one for time stamping? */
import type { Instant } from '../measure/quantity.ts';
import { readAnswer, stampContent, type Token } from './answer.ts';
import { sameBytes, Unreadable } from './asn1.ts';
import { type Certificate, timeStamping } from './certificate.ts';
import { hashed, sha1Of, type VerifyByCertificate } from './scheme.ts';

export interface Stamp {
  readonly at: Instant;
  readonly offMilliseconds?: number;
  readonly policy: string;
  readonly serial: string;
  /** Of the authority, as its certificate names it. */
  readonly authority: string;
  /** Of the certificate that signed, and the others that came along. */
  readonly certificate: Certificate;
  readonly others: readonly Certificate[];
}
export type StampWhy =
  | 'unreadable'
  | 'refused'
  | 'another head'
  | 'another nonce'
  | 'no certificate'
  | 'altered'
  | 'another certificate'
  | 'not for stamps'
  | 'certificate not valid then'
  /** It holds, and the record has something else at that place. */
  | 'rewritten';
export interface StampFault {
  readonly why: StampWhy;
  readonly detail?: string;
}
export type StampCheck = { readonly stamp: Stamp } | { readonly fault: StampFault };

export interface Asked {
  /** What was to be stamped. */
  readonly text: Uint8Array;
  /** Hexadecimal; undefined where the request had none. */
  readonly nonce?: string;
}

export const checkStamp = (answer: Uint8Array, asked: Asked, verify: VerifyByCertificate): StampCheck => {
  try {
    const token = readAnswer(answer);
    if ('refused' in token) return bad('refused', token.refused);
    return checkToken(token, asked, verify);
  } catch (error) {
    if (error instanceof Unreadable) return bad('unreadable', error.message);
    throw error;
  }
};

const bad = (why: StampWhy, detail?: string): StampCheck => ({
  fault: { why, ...(detail === undefined ? {} : { detail }) },
});

const checkToken = (token: Token, asked: Asked, verify: VerifyByCertificate): StampCheck => {
  const { signer, certificates, at } = token;
  if (!sameBytes(token.imprint, hashed(token.imprintHash, asked.text))) return bad('another head');
  if (asked.nonce !== undefined && token.nonce !== asked.nonce) return bad('another nonce');
  const certificate = certificates.find((each) => signer.isIt(each));
  if (certificate === undefined) return bad('no certificate');
  if (signer.contentKind !== stampContent || !sameBytes(signer.contentHash, hashed(signer.hash, token.content)))
    return bad('altered', 'the time or what is stamped is not what was signed');
  if (!verify(certificate.publicKey, signer.scheme, signer.attributes, signer.signature))
    return bad('altered', 'the signature is not by the certificate that came along');
  const named = signer.certificateHash;
  const hash = named.hash === 'SHA-1' ? sha1Of(certificate.whole) : hashed(named.hash, certificate.whole);
  if (!sameBytes(named.value, hash)) return bad('another certificate');
  if (!isForStamps(certificate)) return bad('not for stamps', certificate.name);
  if (at < certificate.from || at > certificate.to) return bad('certificate not valid then', certificate.name);
  const { offMilliseconds, policy, serial } = token;
  return {
    stamp: {
      ...{ at, policy, serial, authority: certificate.name, certificate },
      ...(offMilliseconds === undefined ? {} : { offMilliseconds }),
      others: certificates.filter((each) => each !== certificate),
    },
  };
};

/** For that alone, and so that nobody may overlook it (RFC 3161, 2.3). */
const isForStamps = ({ usage }: Certificate): boolean =>
  usage?.critical === true && usage.purposes.length === 1 && usage.purposes[0] === timeStamping;
