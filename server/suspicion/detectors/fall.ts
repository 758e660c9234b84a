/**
 * A probe that leaves its peers within seconds. In one reading and down: the pair is shorted, or a part of its voltage is.
 * As a bead in air falls: the tip came off. From above them down to them as the heat goes off: it lay on the heater.
 */
import { block } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import {
  companyOf,
  type Detector,
  isNearArc,
  isQuiet,
  middle,
  overBlocks,
  peersOf,
  type View,
  type Watched,
} from '../view.ts';

export const fall: Detector = (view) =>
  view.watched.filter(({ onPart }) => onPart).flatMap((watched) => fallOf(view, watched));

function fallOf(view: View, watched: Watched): Sighting[] {
  const { probe, events } = watched;
  const after = numbers.fallStaysBlocks;
  const from = after + numbers.fallBlocks;
  const mean = (each: Watched, back: number): number => block(each.history, back, 'mean');
  const own = mean(watched, from) - mean(watched, after);
  const jumped = events.lastJumpAt >= block(watched.history, from + 1, 'at') ? -events.lastJump : 0;
  const inOneReading = jumped >= numbers.jumpShare * own;
  const lasting = block(watched.history, after, 'at') - block(watched.history, from, 'at');
  // Where blocks are longer a step may be as small, and a fall has to be the larger.
  const limit = inOneReading ? numbers.shortStep : numbers.fall * Math.max(1, lasting / numbers.fallWithin);
  // Before it has fallen so far itself nobody else is looked at.
  if (!(own >= limit)) return [];
  const arcNear = isNearArc(view, watched) && !isQuiet(watched, numbers.blocksKept);
  // What goes up and down has other causes.
  if (watched.flame || arcNear || !(overBlocks(watched, 'noise', 0, 3) < numbers.noise)) return [];
  const peers = peersOf(view, watched);
  const reference = peers.length > 0 ? peers : companyOf(view, watched);
  if (reference.length === 0) return [];
  const others = (back: number): number => middle(reference.map((each) => mean(each, back)));
  const fell = others(from) - others(after);
  // It stays down: a wave would be on its way back.
  const back = mean(watched, 0) - mean(watched, after) - Math.max(others(0) - others(after), 0);
  if (!(own - Math.max(fell, 0) >= limit) || fell > numbers.fallShare * own || back > numbers.fallShare * own)
    return [];
  const [now, level] = [mean(watched, 0), others(0)];
  const above = mean(watched, from) - others(from);
  const about = {
    probe,
    sure: peers.length > 0 ? 'likely' : 'possible',
    seen: {
      difference: Math.round(own),
      lasting: Math.round(lasting),
      reading: Math.round(now),
      others: Math.round(level),
    },
  } as const;
  const near = Math.max(numbers.flameAbove, numbers.fallShare * own);
  if (peers.length > 0) {
    // It stood there for a while; the top of a wave does not.
    const stood = [1, 2, 3].every(
      (more) => mean(watched, from + more) - others(from + more) >= numbers.fallShare * own,
    );
    if (stood && above >= numbers.jumpShare * own && Math.abs(now - level) <= near)
      return [{ kind: 'tip-on-heater', ...about }];
    // It has to come from its peers' level and go below it.
    if (above > Math.max(numbers.flameAbove, numbers.jumpShare * own) || now > level - numbers.flameAbove) return [];
  }
  return [{ kind: inOneReading ? 'short' : 'detached', ...about }];
}
