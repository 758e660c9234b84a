/**
 * Says how a link stands, once for each change that a person would want to know. While a port cannot be
 * read, the station tries it every few seconds: those tries are silent until one fails for another reason
 * or a board answers.
 */
import type { Clock } from '../measure/clock.ts';
import type { WireEvent } from './event.ts';

type LinkState = Extract<WireEvent, { readonly type: 'link' }>['state'];

export interface Announcer {
  /** leftAlone: it is not tried again by itself. */
  say(state: LinkState, cause: string, advice?: string, leftAlone?: boolean): void;
  /** A board said hello. before: another board that answered on this port until now; found: a speed that was not stated. */
  open(board: string, before: string | undefined, found?: number): void;
}

export const createAnnouncer = (port: string, clock: Clock, onEvent: (event: WireEvent) => void): Announcer => {
  let state: LinkState | undefined;
  let cause = '';
  let board: string | undefined;

  const tell = (next: LinkState, why: string, advice?: string, leftAlone = false): void => {
    state = next;
    cause = why;
    onEvent({
      type: 'link',
      port,
      ...(board === undefined ? {} : { board }),
      state,
      cause,
      ...(advice === undefined ? {} : { advice }),
      ...(leftAlone ? { leftAlone } : {}),
      arrivedAt: clock.wall(),
    });
  };

  return {
    say: (next, why, advice, leftAlone) => {
      if (state === 'refused' && (next === 'opening' || next === 'waiting for hello')) return;
      if (state === next && (cause === why || next !== 'refused')) return;
      tell(next, why, advice, leftAlone);
    },
    open: (next, before, found) => {
      if (state === 'open' && board === next) return;
      board = next;
      const where = before === undefined ? '' : ` where ${before} did before`;
      const speed = found === undefined ? '' : ` at ${found} baud, which was not stated: start with --baud ${found}`;
      tell('open', `board ${next} answers${where}${speed}`);
    },
  };
};
