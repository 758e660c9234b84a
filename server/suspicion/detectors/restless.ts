/**
 * Readings that go up and down faster than steel: a broken wire that floats, mains read too seldom, or a tip in flame or on
 * a heater. A wave that comes again alike is mains; a restless probe that stands above its peers while the heat is on has
 * the heater at its tip; the rest floats.
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
import { waveIn } from '../wave.ts';

export const restless: Detector = (view) => view.watched.flatMap((watched) => restlessOf(view, watched));

function restlessOf(view: View, watched: Watched): Sighting[] {
  if (watched.flame || isNearArc(view, watched) || hasArc(watched)) return [];
  const { probe, history } = watched;
  const noise = overBlocks(watched, 'noise', 0, 3);
  const wave = waveIn(history, noise);
  if (wave !== undefined)
    return [
      {
        kind: 'mains-alias',
        probe,
        sure: 'likely',
        seen: { difference: Math.round(2 * wave.height), lasting: Math.round(wave.period) },
      },
    ];
  // Of two or three readings in a block the noise is only guessed.
  const least = block(history, 0, 'readings') >= 6 ? numbers.noise : numbers.noiseOfFew;
  if (!(noise >= least) || !(block(history, 0, 'noise') >= numbers.noise / 2)) return [];
  const own = overBlocks(watched, 'mean', 0, 2);
  const peers = middle(peersOf(view, watched).map((each) => overBlocks(each, 'mean', 0, 2)));
  const above = own - peers;
  // A tip on a heater lies between heater and part: it is never colder than the part.
  const wasBelow = lowestOf(watched, 3) < peers - numbers.flameAbove;
  if (view.heat !== 'off' && above >= numbers.flameAbove && !wasBelow)
    return [{ kind: 'tip-on-heater', probe, sure: 'likely', seen: { difference: Math.round(above) } }];
  const company = middle(companyOf(view, watched).map((each) => overBlocks(each, 'noise', 0, 3)));
  // All of them restless at once is the air or the wiring of the shop, not this wire.
  if (numbers.noiseTimes * company >= noise) return [];
  const open = { kind: 'open', probe, sure: 'likely', seen: { difference: Math.round(noise) } } as const;
  return [wasBelow ? { ...open, disproves: 'tip-on-heater' } : open];
}

const lowestOf = ({ history }: Watched, blocks: number): number =>
  Math.min(...Array.from({ length: blocks }, (_, back) => block(history, back, 'lowest')));

const hasArc = (watched: Watched): boolean => !isQuiet(watched, Math.min(14, numbers.blocksKept));
