/**
 * Does the certificate of a time stamp go back to an authority that the reader trusts? Signatures, lives at the time of
 * the stamp, and the right to issue are looked at; revocation is not, nor limits on names or on the length of the way
 * (OpenSSL looks at those).
 */
import { sameBytes, Unreadable } from './asn1.ts';
import type { Certificate } from './certificate.ts';
import type { Stamp } from './check.ts';
import type { VerifyByCertificate } from './scheme.ts';

export type Trust = { readonly by: string } | { readonly lacks: string };

/** Certificates between that of the stamp and one that is trusted. */
const stepsMaximum = 8;

export const trustOf = (stamp: Stamp, trusted: readonly Certificate[], verify: VerifyByCertificate): Trust => {
  let current = stamp.certificate;
  for (let step = 0; step <= stepsMaximum; step += 1) {
    const itself = trusted.find(({ whole }) => sameBytes(whole, current.whole));
    if (itself !== undefined) return { by: itself.name };
    const isIssuer = issues(current, stamp, verify);
    const anchor = trusted.find(isIssuer);
    if (anchor !== undefined) return { by: anchor.name };
    const next = stamp.others.find((each) => each !== current && isIssuer(each));
    if (next === undefined) break;
    current = next;
  }
  return { lacks: current.name };
};

const issues =
  (issued: Certificate, { at }: Stamp, verify: VerifyByCertificate) =>
  (issuer: Certificate): boolean =>
    sameBytes(issuer.subject, issued.issuer) &&
    issuer.mayIssue &&
    issuer.from <= at &&
    at <= issuer.to &&
    isSignedBy(issued, issuer, verify);

const isSignedBy = (
  { signed, scheme, signature }: Certificate,
  { publicKey }: Certificate,
  verify: VerifyByCertificate,
): boolean => {
  try {
    return verify(publicKey, scheme(), signed, signature);
  } catch (error) {
    if (error instanceof Unreadable) return false;
    throw error;
  }
};
