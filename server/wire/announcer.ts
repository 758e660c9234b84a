/**
 * Says how a link stands, once for each change that a person would want to know. While a port cannot be
 * read, the station tries it every few seconds: those tries are silent until one fails for another reason
 * or a board answers.
 */
import type { Clock } from '../measure/clock.ts';
import type { WireEvent } from './event.ts';

type LinkState = Extract<WireEvent, { readonly type: 'link' }>['state'];

export interface Announcer {
  say(state: LinkState, cause: string, advice?: string): void;
  /** A board said hello. before: another board that answered on this port until now. */
  open(board: string, before: string | undefined): void;
}

export const createAnnouncer = (port: string, clock: Clock, onEvent: (event: WireEvent) => void): Announcer => {
  let state: LinkState | undefined;
  let cause = '';
  let board: string | undefined;

  const tell = (next: LinkState, why: string, advice?: string): void => {
    state = next;
    cause = why;
    onEvent({
      type: 'link',
      port,
      ...(board === undefined ? {} : { board }),
      state,
      cause,
      ...(advice === undefined ? {} : { advice }),
      arrivedAt: clock.wall(),
    });
  };

  return {
    say: (next, why, advice) => {
      if (state === 'refused' && (next === 'opening' || next === 'waiting for hello')) return;
      if (state === next && (cause === why || next !== 'refused')) return;
      tell(next, why, advice);
    },
    open: (next, before) => {
      if (state === 'open' && board === next) return;
      board = next;
      tell('open', before === undefined ? `board ${next} answers` : `board ${next} answers where ${before} did before`);
    },
  };
};
