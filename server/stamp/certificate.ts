/** What a certificate (RFC 5280) says, as far as a time stamp asks for it. */
import type { Instant } from '../measure/quantity.ts';
import { as, bitsOf, Fields, isTrue, type Node, nameOf, octetsOf, readAll, tags, textOf, timeOf } from './asn1.ts';
import { type Scheme, schemeOf } from './scheme.ts';

export interface Certificate {
  readonly whole: Uint8Array;
  /** What its issuer signed, how, and the signature. */
  readonly signed: Uint8Array;
  readonly scheme: () => Scheme;
  readonly signature: Uint8Array;
  readonly serial: Uint8Array;
  /** Names as they are compared, and the holder's as a person reads it. */
  readonly issuer: Uint8Array;
  readonly subject: Uint8Array;
  readonly name: string;
  readonly from: Instant;
  readonly to: Instant;
  /** DER of the SubjectPublicKeyInfo. */
  readonly publicKey: Uint8Array;
  /** What it is for, and whether whoever reads it has to mind that; undefined where it does not say. */
  readonly usage?: { readonly purposes: readonly string[]; readonly critical: boolean };
  readonly mayIssue: boolean;
  /** Its name within the certificates of its issuer, as a signature may give it. */
  readonly keyId?: Uint8Array;
}

export const timeStamping = '1.3.6.1.5.5.7.3.8';
const extensions = { keyId: '2.5.29.14', keyUsage: '2.5.29.15', basic: '2.5.29.19', extended: '2.5.29.37' } as const;

export const certificateOf = (node: Node): Certificate => {
  const outer = new Fields(as(node, tags.sequence, 'a certificate'));
  const signed = outer.next('the signed part of a certificate', tags.sequence);
  const algorithm = outer.next('the way a certificate is signed', tags.sequence);
  const signature = bitsOf(outer.next('the signature of a certificate'));
  const fields = new Fields(signed);
  fields.option(0xa0);
  const serial = fields.next('the number of a certificate', tags.integer).content;
  fields.next('the way a certificate is signed', tags.sequence);
  const issuer = fields.next('the issuer of a certificate', tags.sequence).whole;
  const validity = new Fields(fields.next('the life of a certificate', tags.sequence));
  const [from, to] = [timeOf(validity.next('its beginning')), timeOf(validity.next('its end'))];
  const subject = fields.next('the holder of a certificate', tags.sequence);
  const publicKey = fields.next('the key of a certificate', tags.sequence).whole;
  fields.option(0x81);
  fields.option(0x82);
  return {
    ...{
      whole: node.whole,
      signed: signed.whole,
      scheme: () => schemeOf(algorithm),
      signature,
      serial,
      issuer,
      from,
      to,
    },
    ...{ subject: subject.whole, name: personal(subject), publicKey },
    ...extended(fields.option(0xa3)?.children[0]),
  };
};

type Extended = Pick<Certificate, 'usage' | 'mayIssue' | 'keyId'>;

const extended = (list: Node | undefined): Extended => {
  const found = new Map<string, { readonly critical: boolean; readonly value: Node }>();
  for (const each of list?.children ?? []) {
    const fields = new Fields(each);
    const name = nameOf(fields.next('an extension'));
    const critical = isTrue(fields.option(tags.boolean));
    found.set(name, { critical, value: readAll(octetsOf(fields.next('the value of an extension')), 'an extension') });
  }
  const [extendedUsage, keyId] = [found.get(extensions.extended), found.get(extensions.keyId)];
  return {
    ...(extendedUsage === undefined
      ? {}
      : { usage: { purposes: extendedUsage.value.children.map(nameOf), critical: extendedUsage.critical } }),
    mayIssue:
      isAuthority(found.get(extensions.basic)?.value) && signsCertificates(found.get(extensions.keyUsage)?.value),
    ...(keyId === undefined ? {} : { keyId: octetsOf(keyId.value) }),
  };
};

const isAuthority = (basic: Node | undefined): boolean =>
  basic !== undefined && isTrue(new Fields(basic).option(tags.boolean));
/** Where it names the uses of its key at all. */
const signsCertificates = (use: Node | undefined): boolean => use === undefined || ((use.content[1] ?? 0) & 0x04) !== 0;

/** Common name first, then the others, in the order in which they stand. */
const personal = (subject: Node): string => {
  const parts = subject.children
    .flatMap(({ children }) => children)
    .map(
      ({ children: [kind, value] }) =>
        [kind === undefined ? '' : nameOf(kind), value === undefined ? '' : textOf(value)] as const,
    );
  const common = parts.filter(([kind]) => kind === '2.5.4.3');
  return [...common, ...parts.filter(([kind]) => kind !== '2.5.4.3')]
    .map(([, text]) => text.replace(/\p{C}/gu, ' '))
    .join(', ')
    .slice(0, 200);
};

/** Those of a file: PEM, one or several, or one as DER. Throws Unreadable. */
export const certificatesIn = (bytes: Uint8Array): readonly Certificate[] => {
  const text = new TextDecoder('latin1').decode(bytes);
  const parts = [...text.matchAll(/-----BEGIN (?:TRUSTED )?CERTIFICATE-----([\sA-Za-z0-9+/=]+)-----END/g)];
  const files = parts.length === 0 ? [bytes] : parts.map(([, base64]) => bytesOfBase64(base64!));
  return files.map((each) => certificateOf(readAll(each, 'the certificate')));
};

const bytesOfBase64 = (text: string): Uint8Array =>
  Uint8Array.from(atob(text.replace(/\s/g, '')), (each) => each.charCodeAt(0));
