/** Time stamps: answers that OpenSSL made are read, and whatever is wrong with one is named. */
import { expect, test } from 'vitest';
import { bytesOf } from '../../../server/proof/layout.ts';
import { verifyByCertificate } from '../../../server/record/certificate-signature.ts';
import { certificatesIn } from '../../../server/stamp/certificate.ts';
import { checkStamp, type StampCheck, type StampFault } from '../../../server/stamp/check.ts';
import { isImprintOf, readRequest, stampRequest } from '../../../server/stamp/request.ts';
import { trustOf } from '../../../server/stamp/trust.ts';
import { stampFaultText, stampText, trustText } from '../../../server/wording/stamp.ts';
import { answers, changed, stampedHead } from '../../support/stamps/answers.ts';

const text = bytesOf(stampedHead);
const { nonce } = readRequest(answers.request) as { nonce: string };
const check = (answer: Uint8Array, asked = { text, nonce }): StampCheck =>
  checkStamp(answer, asked, verifyByCertificate);
const faultOf = (found: StampCheck): StampFault | undefined => ('fault' in found ? found.fault : undefined);
const stampOf = (found: StampCheck) => {
  if ('fault' in found) throw new Error(stampFaultText(found.fault));
  return found.stamp;
};

test('a request is what OpenSSL makes of it, and reads back', () => {
  const made = stampRequest(text, Uint8Array.from([0xff, 1, 2, 3, 4, 5, 6, 7]));
  expect(readRequest(made)).toEqual({ imprint: readRequest(answers.request).imprint, nonce: '7f01020304050607' });
  // The one of OpenSSL differs in its nonce alone.
  expect(Buffer.from(made).toString('hex').replace('7f01020304050607', nonce.slice(-16))).toBe(
    Buffer.from(answers.request)
      .toString('hex')
      .replace(`0209${nonce}`, `0208${nonce.slice(-16)}`)
      .replace('3044', '3043'),
  );
  expect(isImprintOf(readRequest(made).imprint, text)).toBe(true);
});

test('a stamp says when, by whom, and whose certificate it goes back to', () => {
  const stamp = stampOf(check(answers.plain));
  expect(stamp).toMatchObject({ authority: 'Stamps of a Test', policy: '1.2.3.4.1', offMilliseconds: 1000 });
  expect(stampText(stamp)).toMatch(
    /^2026-\d\d-\d\d \d\d:\d\d:\d\d UTC, right within 1 s, stamped by Stamps of a Test /,
  );
  const trust = (file: Uint8Array) => trustOf(stamp, certificatesIn(file), verifyByCertificate);
  expect(trust(answers.root)).toEqual({ by: 'Root of Stamps (test)' });
  expect(trust(answers.stranger)).toEqual({ lacks: 'Stamps of a Test' });
  expect(trustText(trust(answers.stranger))).toContain('NOT ISSUED under a certificate that you trust');
  expect(trustText(undefined)).toContain('for you to say');
});

test('RSA with SHA-512, and the older way of naming the certificate', () => {
  const stamp = stampOf(check(answers.rsa, { text, nonce: undefined as unknown as string }));
  expect(stamp.authority).toBe('Stamps with RSA (test)');
  expect(trustOf(stamp, certificatesIn(answers.root), verifyByCertificate)).toHaveProperty('by');
});

/** Status 2, "policy not taken", failure 15: as RFC 3161 writes a refusal. */
const refusal = Uint8Array.from(Buffer.from('3015301302010230090c076e6f2c207468780303000001', 'hex'));

test.each<[what: string, found: StampCheck, fault: Partial<StampFault>, said: RegExp]>([
  [
    'the imprint of another head',
    check(answers.plain, { text: bytesOf('beam-7=4:00'), nonce }),
    { why: 'another head' },
    /something else/,
  ],
  ['another nonce', check(answers.again), { why: 'another nonce' }, /another request/],
  [
    'its time changed',
    check(changed(answers.plain, 'Z0\x03\x02\x01\x01', 'Z0\x03\x02\x01\x02')),
    { why: 'altered' },
    /altered/,
  ],
  [
    'a year changed',
    check(changed(answers.plain, '\x18\x0f2026', '\x18\x0f2025')),
    { why: 'altered' },
    /not what was signed/,
  ],
  [
    'its signature changed',
    check(answers.plain.map((byte, place) => (place === answers.plain.length - 3 ? byte ^ 1 : byte))),
    { why: 'altered' },
    /not by the certificate/,
  ],
  [
    'a refusal',
    check(refusal),
    { why: 'refused', detail: 'status 2, it does not stamp by the policy asked for, "no, thx"' },
    /the authority refused/,
  ],
  ['a certificate that had run out', check(answers.late), { why: 'certificate not valid then' }, /Stamps that ran out/],
  ['a certificate for mail', check(answers.mail), { why: 'not for stamps' }, /not one for time stamping/],
  ['no answer at all', check(bytesOf('<html>')), { why: 'unreadable' }, /no answer of a time stamp authority/],
  ['half an answer', check(answers.plain.subarray(0, 400)), { why: 'unreadable' }, /no answer/],
])('%s is named', (_what, found, fault, said) => {
  expect(faultOf(found)).toMatchObject(fault);
  expect(stampFaultText(faultOf(found)!)).toMatch(said);
});

test('a byte of an answer that is changed takes the stamp away, or changes nothing that it says', () => {
  const whole = stampOf(check(answers.plain));
  for (let place = 0; place < answers.plain.length; place += 7) {
    const found = check(answers.plain.map((byte, index) => (index === place ? byte ^ 0x40 : byte)));
    if ('stamp' in found)
      expect([place, found.stamp.at, found.stamp.authority]).toEqual([place, whole.at, whole.authority]);
  }
});
