/**
 * Who is signed on just now. Kept in memory only: a station that is started again signs everybody off. A sign-on ends
 * when nobody touched the screen for a while, soon where it was by PIN or badge, and after a shift in any case.
 */
import { limits } from '../measure/limits.ts';
import type { SecretKind } from './secret.ts';
import { token, tokenHash } from './secret.ts';

export interface Session {
  readonly person: string;
  readonly proof: SecretKind;
  /** The trusted screen it came from: revoking that one ends it. */
  readonly screen?: string;
}

export interface Sessions {
  /** Hands back what the cookie is to hold. */
  begin(session: Session): string;
  of(cookie: string | undefined): Session | undefined;
  /** Milliseconds until it ends by itself. */
  left(cookie: string | undefined): number;
  /** Somebody touched the screen. */
  touch(cookie: string | undefined): void;
  end(cookie: string | undefined): void;
  endWhere(ends: (session: Session) => boolean): void;
}

interface Kept extends Session {
  readonly since: number;
  touched: number;
}

/** `now`: the clock that never steps. */
export function createSessions(now: () => number): Sessions {
  /** In the order of the last touch. */
  const all = new Map<string, Kept>();

  const leftOf = ({ proof, since, touched }: Kept): number => {
    const idle = proof === 'password' ? limits.passwordSignOnMilliseconds : limits.shortSignOnMilliseconds;
    return Math.min(touched + idle, since + limits.longestSignOnMilliseconds) - now();
  };
  const standing = (cookie: string | undefined): [key: string, kept: Kept] | undefined => {
    const key = cookie === undefined ? undefined : tokenHash(cookie);
    const kept = key === undefined ? undefined : all.get(key);
    if (key === undefined || kept === undefined) return undefined;
    if (leftOf(kept) > 0) return [key, kept];
    all.delete(key);
    return undefined;
  };

  return {
    begin(session) {
      const cookie = token();
      for (const [key, kept] of all) if (leftOf(kept) <= 0) all.delete(key);
      if (all.size >= limits.sessionsMaximum) all.delete(all.keys().next().value!);
      all.set(tokenHash(cookie), { ...session, since: now(), touched: now() });
      return cookie;
    },
    of: (cookie) => standing(cookie)?.[1],
    left(cookie) {
      const found = standing(cookie);
      return found === undefined ? 0 : leftOf(found[1]);
    },
    touch(cookie) {
      const found = standing(cookie);
      if (found === undefined) return;
      const [key, kept] = found;
      kept.touched = now();
      all.delete(key);
      all.set(key, kept);
    },
    end(cookie) {
      const found = standing(cookie);
      if (found !== undefined) all.delete(found[0]);
    },
    endWhere(ends) {
      for (const [key, kept] of all) if (ends(kept)) all.delete(key);
    },
  };
}
