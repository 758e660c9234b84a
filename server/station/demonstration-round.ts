/**
 * The check at ambient of the demonstration: each tip of the emulated board is held in a hand for a while, in the order of
 * the joint, and what the station read of it becomes the act, as at the screen.
 */
import type { Board } from '../../firmware-protocol/emulator/board.ts';
import { beginTouch, endTouch, followTouch, type ReadNow } from '../judgement/ambient/course.ts';
import type { Assessment } from '../judgement/assessment.ts';
import { after, type Instant } from '../measure/quantity.ts';
import type { AmbientCheck, AmbientTouch } from '../weld/ambient-check.ts';
import type { Act } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';

export interface Round {
  /** Goes on with the newest readings; answers with the act once all tips were held, and never again. */
  advance(at: Instant, read: ReadNow): Act | undefined;
}

/** A hand warms the tip; afterwards it has time to go back, and whoever checks reads what was found before recording it. */
const held = { celsius: 33, milliseconds: 20_000, backMilliseconds: 25_000, readMilliseconds: 90_000 };
/** Of the emulated workshop. */
const air = { airCelsius: 20, airReadWith: 'wall thermometer' };

export function createRound({ probes }: Joint, board: Pick<Board, 'inject'>): Round {
  let rest: AmbientCheck['rest'] | undefined;
  let touch: AmbientTouch | undefined;
  let nextAt: Instant | undefined;
  const touches: AmbientTouch[] = [];
  let isOver = false;

  const hand = (probe: string, celsius: number | undefined): void => {
    const { channel } = probes.find(({ id }) => id === probe)!;
    board.inject({ kind: 'touch', channel, celsius });
  };

  return {
    advance: (at, read) => {
      if (isOver || (rest === undefined && read.size < probes.length)) return undefined;
      rest ??= probes.map(({ id }) => ({ probe: id, celsius: read.get(id)! }));
      if (touch !== undefined) {
        touch = followTouch(touch, read, at);
        if (at - touch.from < held.milliseconds) return undefined;
        hand(touch.probe, undefined);
        touches.push(endTouch(touch));
        touch = undefined;
        const isLast = touches.length === probes.length;
        nextAt = after(at, isLast ? held.readMilliseconds : held.backMilliseconds);
      }
      if (nextAt !== undefined && at < nextAt) return undefined;
      const next = probes[touches.length];
      if (next === undefined) {
        isOver = true;
        return { kind: 'ambient check', ...air, rest, touches };
      }
      touch = beginTouch(next.id, 'warmed', read, at);
      hand(next.id, held.celsius);
      return undefined;
    },
  };
}

/** Fresh and good, degrees Celsius. */
export const readOf = ({ probes }: Pick<Assessment, 'probes'>): ReadNow =>
  new Map(
    probes.flatMap(({ probe, fresh, temperature }) =>
      fresh && temperature !== undefined ? [[probe, temperature / 1000] as const] : [],
    ),
  );
