/** Answers of an authority that OpenSSL made (make.sh), all of them of one head: that of FORMAT.md. */
import { readFileSync } from 'node:fs';

type Name = 'certificate' | 'key' | 'request' | 'plain' | 'rsa' | 'late' | 'mail' | 'again' | 'root' | 'stranger';
const kept = JSON.parse(readFileSync(new URL('./answers.json', import.meta.url), 'utf8')) as Record<Name, string>;

/** `root` and `stranger` are certificates to trust, `request` is what `plain` answers, `key` what signed it by `certificate`. */
export const answers = Object.fromEntries(
  Object.entries(kept).map(([name, base64]) => [name, new Uint8Array(Buffer.from(base64, 'base64'))]),
) as Record<Name, Uint8Array>;

export const stampedHead = 'beam-7=3:d4a1a9ba705b3cf056dd9c3993071d83c59778bc5760c452428a1c3bbbc7c2d5';

/** The bytes with some of them changed where a text stands. */
export const changed = (bytes: Uint8Array, from: string, to: string): Uint8Array => {
  const text = Buffer.from(bytes).toString('latin1');
  if (!text.includes(from)) throw new Error(`there is no ${from} in it`);
  return new Uint8Array(Buffer.from(text.replace(from, to), 'latin1'));
};
