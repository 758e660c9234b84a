/**
 * What a person signs on with: made, hashed and compared here, and nowhere kept as it is. A password and a PIN go
 * through scrypt (RFC 7914); the secret of a badge is 128 bits of chance, for which one SHA-256 is enough.
 *
 * A PIN of few digits falls to whoever holds this file and a computer, whatever the hash: it is taken on trusted
 * screens only, tries are counted, and the file is readable by the station's own user alone.
 */
import { createHash, randomBytes, randomInt, scrypt, timingSafeEqual } from 'node:crypto';
import { limits } from '../measure/limits.ts';

export type SecretKind = 'password' | 'PIN' | 'badge';

export interface ScryptCost {
  /** Base-2 logarithm of N. */
  readonly logN: number;
  readonly r: number;
  readonly p: number;
}

/** 32 MiB and some tenths of a second: among the settings of OWASP's advice on storing passwords (from memory). */
export const scryptCost: ScryptCost = { logN: 15, r: 8, p: 3 };

/** "scrypt 15 8 3 SALT HASH", so that a cost that is raised later leaves what was hashed before readable. */
export async function hashOf(secret: string, { logN, r, p }: ScryptCost): Promise<string> {
  const salt = randomBytes(16);
  const hash = await derived(secret, salt, { logN, r, p });
  return ['scrypt', logN, r, p, salt.toString('base64'), hash.toString('base64')].join(' ');
}

/** Takes as long for what is kept nowhere: `kept` undefined is compared with a hash that nothing has. */
export async function matches(secret: string, kept: string | undefined, cost: ScryptCost): Promise<boolean> {
  const [name, logN, r, p, salt, hash] = (kept ?? nothing(cost)).split(' ');
  if (name !== 'scrypt' || salt === undefined || hash === undefined) throw new Error('a kept hash cannot be read');
  const wanted = Buffer.from(hash, 'base64');
  const found = await derived(secret, Buffer.from(salt, 'base64'), { logN: Number(logN), r: Number(r), p: Number(p) });
  return timingSafeEqual(found, wanted) && kept !== undefined;
}

const nothing = ({ logN, r, p }: ScryptCost): string =>
  ['scrypt', logN, r, p, Buffer.alloc(16).toString('base64'), Buffer.alloc(32).toString('base64')].join(' ');

const derived = (secret: string, salt: Buffer, { logN, r, p }: ScryptCost): Promise<Buffer> =>
  new Promise((done, failed) => {
    const N = 2 ** logN;
    const options = { N, r, p, maxmem: 256 * N * r };
    // One form for what looks alike but is typed in another way on another keyboard.
    scrypt(secret.normalize('NFKC'), salt, 32, options, (cause, key) => (cause === null ? done(key) : failed(cause)));
  });

/** Something that nobody guesses: for cookies and badges. */
export const token = (): string => randomBytes(16).toString('hex');
export const tokenHash = (text: string): string => createHash('sha256').update(text).digest('hex');
export const isToken = (text: string, kept: string): boolean =>
  timingSafeEqual(Buffer.from(tokenHash(text), 'hex'), Buffer.from(kept, 'hex'));

/** Six digits that are no easy ones. */
export function newPin(): string {
  for (;;) {
    const pin = `${randomInt(1_000_000)}`.padStart(6, '0');
    if (pinWeakness(pin) === undefined) return pin;
  }
}

/** For somebody who then chooses another: four groups, without signs that are taken for each other. */
export function newPassword(): string {
  const signs = 'abcdefghjkmnpqrstuvwxyz23456789';
  const group = (): string => Array.from({ length: 4 }, () => signs[randomInt(signs.length)]).join('');
  for (;;) {
    const password = [group(), group(), group(), group()].join('-');
    if (passwordWeakness(password, '') === undefined) return password;
  }
}

/** Why a PIN is not taken; undefined where it is. */
export function pinWeakness(pin: string): string | undefined {
  const { pinShortest, pinLongest } = limits;
  if (!/^\d+$/.test(pin) || pin.length < pinShortest || pin.length > pinLongest)
    return `${pinShortest} to ${pinLongest} digits`;
  const steps = [...pin].slice(1).map((digit, index) => Number(digit) - Number(pin[index]));
  return new Set(steps).size === 1 && Math.abs(steps[0]!) <= 1
    ? 'digits that are neither all alike nor in a row'
    : undefined;
}

/** Why a password is not taken; undefined where it is. No rules of signs: length counts, and that it is not the name. */
export function passwordWeakness(password: string, name: string): string | undefined {
  const { passwordShortest, passwordLongest } = limits;
  if (password.length < passwordShortest || password.length > passwordLongest)
    return `${passwordShortest} characters or more, ${passwordLongest} at most: several words that do not belong together`;
  const plain = password.toLowerCase();
  if (new Set(plain).size < 6) return 'more different characters: several words that do not belong together';
  const ofName = name
    .toLowerCase()
    .split(/\s+/)
    .filter((part) => part.length >= 3);
  const left = [...ofName, ...common]
    .reduce((text, part) => text.replaceAll(part, ''), plain)
    .replaceAll(/[\d\W_]/g, '');
  return left.length < 6 ? 'words that are neither the name nor among the first that are tried' : undefined;
}

/** What is tried first; from memory of lists of passwords that were lost. */
const common = [
  'password',
  'passwort',
  'welcome',
  'letmein',
  'qwertyuiop',
  'qwertz',
  'qwerty',
  'asdfgh',
  'admin',
  'weld',
  'preheat',
  'ledger',
];
