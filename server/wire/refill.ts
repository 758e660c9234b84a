/**
 * Asks a board again for samples that did not come, by their sequence numbers, and says in the end what became of them.
 * Promise: one question at a time, each given a bounded number of times; every missing number is told of once, as come
 * late or as lost with the reason; nothing is asked for that the board says it no longer keeps.
 */
import type { Hello, HostFrame, Reply, Sample } from '../../firmware-protocol/codec/frame.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import type { Hole } from '../weld/hole.ts';
import type { SequenceWatch } from './sequence-watch.ts';

/** Its commands bear this number; others choose theirs below it. */
export const refillCommand = 65_535;

export interface Refill {
  /** Each hello of this start. */
  hello(hello: Pick<Hello, 'linesKept'>): void;
  /** The board has started again: what is still missing is told as lost, and the hole of the start itself. */
  over(): void;
  /** Each sample that the watch took as new. */
  took(sample: Sample): void;
  reply(reply: Reply): void;
  /** The port is lost: what is missing is asked for when the board answers again. */
  pause(): void;
}

interface Running {
  from: number;
  /** The last that is missing. */
  to: number;
  missing: number;
  came: number;
  tries: number;
  /** Lowest that came of this question. */
  lowest: number | undefined;
}

export interface RefillOptions {
  readonly clock: Clock;
  /** Of the start that this is for: each start of a board has its own. */
  readonly boot: number;
  /** Numbers below are done with already. */
  readonly settledBelow?: number;
  /** It was told already that the start is over. */
  readonly over?: boolean;
  readonly watch: Pick<SequenceWatch, 'missingBetween' | 'lowestMissing' | 'highest' | 'giveUp'>;
  send(frame: HostFrame): void;
  tell(hole: Hole): void;
}

export function createRefill(options: RefillOptions): Refill {
  const { clock, boot, watch, send, tell } = options;
  let linesKept = 0;
  /** Numbers below are done with, come or lost. */
  let settledBelow = options.settledBelow ?? 0;
  /** It was told that what comes after the newest is lost. */
  let told = options.over ?? false;
  let hole: Running | undefined;
  let asking = false;
  let cancel = (): void => {};

  const rest = (): void => {
    cancel();
    asking = false;
  };

  const arm = (): void => {
    cancel();
    cancel = clock.after(milliseconds(limits.refillPatienceMilliseconds), () => again('not sent again'));
  };

  const ask = (from: number): void => {
    hole!.tries += 1;
    hole!.lowest = undefined;
    asking = true;
    arm();
    send({ kind: 'send again', command: refillCommand, fromSequence: from });
  };

  const end = (fate: Hole['fate']): void => {
    rest();
    const { from, to, came, missing } = hole!;
    hole = undefined;
    settledBelow = to + 1;
    // What was told as lost stays lost, though a line may still be under way: no number is told of twice.
    watch.giveUp(from, to);
    tell({ boot, from, to, came, lost: missing - came, fate: came === missing ? 'sent again' : fate });
  };

  /** Asks for what is still missing of the hole, as long as there is hope. */
  const again = (otherwise: Hole['fate']): void => {
    const lowest = watch.lowestMissing(Math.max(hole!.from, hole!.lowest ?? 0));
    if (lowest === undefined || lowest > hole!.to || hole!.tries >= limits.refillTriesMaximum) end(otherwise);
    else ask(lowest);
  };

  const begin = (newest: number): void => {
    const lowest = watch.lowestMissing(settledBelow);
    if (lowest === undefined || lowest > newest) {
      // The last of it came, and then the port was lost before the reply.
      if (hole !== undefined) end('sent again');
      return;
    }
    // A hole that was open when the port was lost goes on, with what has come of it.
    const { from = lowest, came = 0 } = hole ?? {};
    const missing = came + watch.missingBetween(from, newest);
    hole = { from, to: newest - 1, missing, came, tries: 0, lowest: undefined };
    if (linesKept === 0) end('no longer kept');
    else ask(Math.max(lowest, newest - linesKept));
  };

  /** A start that was told as over speaks all the same, as where another board had taken its name: what lies between was told as lost. */
  const backAgain = (sequence: number): void => {
    told = false;
    settledBelow = sequence;
    watch.giveUp(0, sequence - 1);
  };

  return {
    hello: (hello) => {
      linesKept = hello.linesKept;
    },
    over: () => {
      if (hole !== undefined) end('board started again');
      const highest = watch.highest();
      if (highest === undefined || told) return;
      // What went missing while another hole was open.
      const from = watch.lowestMissing(settledBelow);
      if (from !== undefined) {
        hole = {
          from,
          to: highest,
          missing: watch.missingBetween(from, highest),
          came: 0,
          tries: 0,
          lowest: undefined,
        };
        end('board started again');
      }
      told = true;
      tell({ boot, from: highest + 1, came: 0, fate: 'board started again' });
    },
    took: ({ sequence, resent }) => {
      if (resent) {
        if (hole === undefined || sequence < hole.from || sequence > hole.to) return;
        hole.came += 1;
        hole.lowest = Math.min(hole.lowest ?? sequence, sequence);
        if (asking) arm();
      } else if (told) backAgain(sequence);
      else if (!asking) begin(sequence);
    },
    reply: ({ outcome }) => {
      if (!asking) return;
      rest();
      if (outcome === 'not kept' && hole!.lowest === undefined) end('no longer kept');
      else again(outcome === 'not kept' ? 'no longer kept' : 'not sent again');
    },
    pause: rest,
  };
}
