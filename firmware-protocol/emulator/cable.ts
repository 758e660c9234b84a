/** The cable of a board in software: it comes out and goes in again, catches noise, breaks a line off. */
import type { Noise } from './noise.ts';

export type CableInjected =
  /** Nothing passes either way while it is out; the board runs on. */
  | { readonly kind: 'unplugged' }
  | { readonly kind: 'plugged in' }
  /** Noise on the line before whatever comes next. */
  | { readonly kind: 'garbage'; readonly bytes: number }
  /** The next line breaks off half way, without its LF. */
  | { readonly kind: 'cut line' };

export interface Cable {
  /** Whole lines, so that one can be cut. */
  send(bytes: string): void;
  /** What came through since the last call. */
  take(): string;
  passes(): boolean;
  inject(injected: CableInjected): void;
}

export function createCable(noise: Noise): Cable {
  let plugged = true;
  let cut = false;
  let out = '';

  const send = (bytes: string): void => {
    if (!plugged) return;
    if (cut && bytes.length > 1) {
      cut = false;
      out += bytes.slice(0, bytes.length >> 1);
    } else out += bytes;
  };

  return {
    send,
    take: () => {
      const bytes = out;
      out = '';
      return bytes;
    },
    passes: () => plugged,
    inject: (injected) => {
      switch (injected.kind) {
        case 'unplugged':
          plugged = false;
          out = '';
          return;
        case 'plugged in':
          plugged = true;
          return;
        case 'garbage':
          return send(Array.from({ length: injected.bytes }, () => String.fromCharCode(noise.below(256))).join(''));
        case 'cut line':
          cut = true;
          return;
      }
    },
  };
}
