/** Two cookies: which screen this is, and who is signed on at it. No script reads them, and no other site's page sends them. */
import type { Request, Response } from 'express';
import { tokenHash } from './secret.ts';

export interface Cookies {
  read(request: Request, which: 'screen' | 'session'): string | undefined;
  write(request: Request, response: Response, which: 'screen' | 'session', value: string): void;
  forget(response: Response, which: 'screen' | 'session'): void;
}

/** A browser does not tell ports apart: two stations on one machine must not take each other's. */
export function cookiesOf(file: string): Cookies {
  const nameOf = (which: string): string => `preheat-${which}-${tokenHash(file).slice(0, 8)}`;
  const common = { httpOnly: true, sameSite: 'strict', path: '/api' } as const;
  return {
    read(request, which) {
      const name = `${nameOf(which)}=`;
      const found = (request.get('cookie') ?? '').split(/;\s*/).find((each) => each.startsWith(name));
      const value = found?.slice(name.length) ?? '';
      return /^[0-9a-f]{32}$/.test(value) ? value : undefined;
    },
    write(request, response, which, value) {
      // A session ends with the browser at the latest, a trusted screen stays one until it is revoked.
      const lasting = which === 'screen' ? { maxAge: 400 * 86_400_000 } : {};
      response.cookie(nameOf(which), value, { ...common, ...lasting, secure: request.secure });
    },
    forget: (response, which) => void response.clearCookie(nameOf(which), common),
  };
}
