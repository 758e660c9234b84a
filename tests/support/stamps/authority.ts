/** An authority for tests that stamps whatever head it is asked for, with the key of the fixtures, without OpenSSL. */
import { createPrivateKey, sign } from 'node:crypto';
import { bytesOf } from '../../../server/proof/layout.ts';
import { certificatesIn } from '../../../server/stamp/certificate.ts';
import { readRequest } from '../../../server/stamp/request.ts';
import { hashed } from '../../../server/stamp/scheme.ts';
import { answers } from './answers.ts';

const der = (tag: number, ...parts: readonly Uint8Array[]): Uint8Array => {
  const inner = Buffer.concat(parts);
  const { length } = inner;
  const head = length < 128 ? [length] : length < 256 ? [0x81, length] : [0x82, length >> 8, length & 0xff];
  return new Uint8Array(Buffer.concat([Uint8Array.of(tag, ...head), inner]));
};
const hex = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'hex'));
const number = (value: number): Uint8Array => der(0x02, Uint8Array.of(value));
const sequence = (...parts: readonly Uint8Array[]): Uint8Array => der(0x30, ...parts);

const sha256 = hex('300b0609608648016503040201');
const ecdsa = hex('300a06082a8648ce3d040302');
const stampKind = hex('060b2a864886f70d0109100104');
const attribute = (kind: string, value: Uint8Array): Uint8Array => sequence(hex(kind), der(0x31, value));

export interface Wish {
  /** As GeneralizedTime. */
  readonly at?: string;
  readonly status?: number;
  readonly nonce?: string;
}

/** The answer to a request. */
export const stampFor = (request: Uint8Array, { at = '20260302070000Z', status = 0, nonce }: Wish = {}): Uint8Array => {
  if (status > 1) return sequence(sequence(number(status)));
  const asked = readRequest(request);
  const content = sequence(
    ...[number(1), hex('06042a030401'), sequence(sha256, der(0x04, asked.imprint)), number(7)],
    ...[der(0x18, bytesOf(at)), sequence(number(1)), der(0x02, hex(nonce ?? asked.nonce ?? '01'))],
  );
  const [certificate] = certificatesIn(answers.certificate);
  const { whole, issuer, serial } = certificate!;
  const attributes = [
    attribute('06092a864886f70d010903', stampKind),
    attribute('06092a864886f70d010904', der(0x04, hashed('SHA-256', content))),
    attribute('060b2a864886f70d010910022f', sequence(sequence(sequence(der(0x04, hashed('SHA-256', whole)))))),
  ];
  const key = createPrivateKey(Buffer.from(answers.key).toString());
  const signature = new Uint8Array(sign('sha256', der(0x31, ...attributes), key));
  const signer = sequence(
    ...[number(1), sequence(issuer, der(0x02, serial)), sha256],
    ...[der(0xa0, ...attributes), ecdsa, der(0x04, signature)],
  );
  const data = sequence(
    ...[number(3), der(0x31, sha256), sequence(stampKind, der(0xa0, der(0x04, content)))],
    ...[der(0xa0, whole), der(0x31, signer)],
  );
  return sequence(sequence(number(status)), sequence(hex('06092a864886f70d010702'), der(0xa0, data)));
};
