/** Trusted screens: where an administrator said that a PIN or a badge is enough. What proves it is a cookie that no script reads. */
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Book } from './book.ts';
import { refusal } from './people.ts';
import { token, tokenHash } from './secret.ts';

export interface TrustedScreen {
  readonly id: string;
  readonly name: string;
  readonly trustedAt: Instant;
  readonly trustedBy: string;
}

const columns = 'id, name, trusted_at AS trustedAt, trusted_by AS trustedBy';

export const trustedScreens = (book: Book): readonly TrustedScreen[] =>
  book.all<TrustedScreen>(`SELECT ${columns} FROM screens ORDER BY name`);

/** By the cookie that it sends. */
export const screenOf = (book: Book, cookie: string | undefined): TrustedScreen | undefined =>
  cookie === undefined
    ? undefined
    : book.get<TrustedScreen>(`SELECT ${columns} FROM screens WHERE hash = ?`, tokenHash(cookie));

/** Hands back what the screen's cookie is to hold; it stands nowhere else. */
export function trustScreen(book: Book, name: string, by: string): string {
  const all = trustedScreens(book);
  if (all.length >= limits.trustedScreensMaximum)
    throw refusal('name', `${all.length} screens`, `at most ${limits.trustedScreensMaximum}; revoke one first`);
  if (all.some((each) => each.name === name)) throw refusal('name', name, 'a name that no trusted screen has');
  const secret = token();
  book.change(by, `trusted the screen ${name}`, (database) =>
    database.run(
      'INSERT INTO screens (id, name, hash, trusted_at, trusted_by) VALUES (?, ?, ?, ?, ?)',
      `s-${token().slice(0, 8)}`,
      name,
      tokenHash(secret),
      book.now(),
      by,
    ),
  );
  return secret;
}

export function revokeScreen(book: Book, id: string, by: string): void {
  const screen = trustedScreens(book).find((each) => each.id === id);
  if (screen === undefined) throw refusal('id', id, 'a screen that is trusted; this one is not, or not any more');
  book.change(by, `revoked the screen ${screen.name}`, (database) =>
    database.run('DELETE FROM screens WHERE id = ?', id),
  );
}
