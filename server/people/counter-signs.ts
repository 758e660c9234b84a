/** The second signature under a hand-over: proven at the screen of the first, for a short while and for that sign-on only. */
import type { Signer } from '../desk/actor.ts';
import { limits } from '../measure/limits.ts';
import { token, tokenHash } from './secret.ts';

export interface CounterSigns {
  /** Hands back what the entries are to carry. */
  give(session: string, signer: Signer): string;
  of(session: string | undefined, carried: string | undefined): Signer | undefined;
}

export function createCounterSigns(now: () => number): CounterSigns {
  const all = new Map<string, { readonly session: string; readonly signer: Signer; readonly until: number }>();
  return {
    give(session, signer) {
      for (const [key, { until }] of all) if (until <= now()) all.delete(key);
      if (all.size >= limits.sessionsMaximum) all.delete(all.keys().next().value!);
      const carried = token();
      all.set(tokenHash(carried), {
        session: tokenHash(session),
        signer,
        until: now() + limits.counterSignMilliseconds,
      });
      return carried;
    },
    of(session, carried) {
      if (session === undefined || carried === undefined) return undefined;
      const found = all.get(tokenHash(carried));
      return found !== undefined && found.until > now() && found.session === tokenHash(session)
        ? found.signer
        : undefined;
    },
  };
}
