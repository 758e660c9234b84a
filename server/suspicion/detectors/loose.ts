/**
 * A wire that breaks and touches again. Readings jump as no steel can, or single ones are lost with the flag of an open
 * wire; neither lasts long enough to be a trouble of its own.
 */
import type { Instant } from '../../measure/quantity.ts';
import { block } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import type { Detector, View, Watched } from '../view.ts';

export const loose: Detector = (view) => view.watched.flatMap((watched) => looseOf(view, watched));

function looseOf(view: View, watched: Watched): Sighting[] {
  const { jumps, firstJumpAt, lastJumpAt, biggestJump, lost, firstLostAt, lastLostAt } = watched.events;
  const nearArc = view.welding && (watched.place?.distanceMillimetres ?? 0) < numbers.nearArcMillimetres;
  const about = { kind: 'open', probe: watched.probe } as const;
  // One that never rests is not jumping from level to level; restless.ts tells it.
  const recent = 3 * Math.max(numbers.blockAtLeast, view.at - block(watched.history, 1, 'at'));
  const isFast = block(watched.history, 0, 'readings') >= 6;
  const rests = !isFast || !(block(watched.history, 0, 'noise') >= numbers.noise);
  if (rests && !watched.flame && !nearArc && jumps >= numbers.loosePossible && view.at - lastJumpAt <= recent)
    return [
      {
        ...about,
        sure: jumps >= numbers.looseClear ? 'clear' : 'likely',
        since: firstJumpAt as Instant,
        seen: { difference: Math.round(biggestJump), times: jumps },
      },
    ];
  if (lost >= numbers.loosePossible && view.at - lastLostAt <= recent)
    return [{ ...about, sure: 'clear', since: firstLostAt as Instant, seen: { times: lost } }];
  return [];
}
