/** What comes with the arc and goes with it: bursts in the wires, and steps from welding current that runs through the part. */
import type { Instant } from '../../measure/quantity.ts';
import { block } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import { type Detector, isNearArc, middle, type View, type Watched } from '../view.ts';

export const arc: Detector = (view) =>
  view.watched.flatMap((watched) =>
    isNearArc(view, watched) && spacing(watched) > numbers.nearArcReadings
      ? []
      : [...loopOf(view, watched), ...burstsOf(view, watched)],
  );

/** Milliseconds between two readings. */
const spacing = ({ history }: Watched): number =>
  (block(history, 0, 'at') - block(history, 1, 'at')) / block(history, 0, 'values');

/** A step in the very reading in which the arc began, and one back in that in which it ended; level in between. */
function loopOf(view: View, watched: Watched): Sighting[] {
  const { probe, events } = watched;
  const { arcOn, arcOff, arcOnAt, arcOffAt } = events;
  const least = isNearArc(view, watched) ? numbers.arcStepNearArc : numbers.arcStep;
  if (!(Math.abs(arcOn) >= least)) return [];
  const ended = arcOffAt > arcOnAt;
  if (view.at - (ended ? arcOffAt : arcOnAt) > 3 * numbers.blockAtLeast) return [];
  if (ended && Math.abs(arcOff + arcOn) > numbers.arcStepAlike * Math.abs(arcOn)) return [];
  // A burst at that very moment looks alike, and bursts go on. One block with the arc has to be over.
  if (!ended && view.at - arcOnAt < 2 * numbers.blockAtLeast) return [];
  if (block(watched.history, ended ? 1 : 0, 'noise') > Math.abs(arcOn) / 8) return [];
  const others = view.watched.filter((each) => each.probe !== probe && Math.abs(each.events.arcOn) >= numbers.arcStep);
  return [
    {
      kind: 'ground-loop',
      probe,
      sure: ended ? 'clear' : others.length > 0 ? 'likely' : 'possible',
      since: arcOnAt as Instant,
      seen: { difference: Math.round(arcOn) },
    },
  ];
}

/** Noise many times what it was before the arc. */
function burstsOf(view: View, watched: Watched): Sighting[] {
  const { history, probe } = watched;
  const least = isNearArc(view, watched) ? numbers.arcNoiseNearArc : numbers.arcNoise;
  const loud: number[] = [];
  const quiet: number[] = [];
  for (let back = 0; back < numbers.blocksKept && quiet.length < numbers.arcNoiseBlocks; back += 1) {
    const noise = block(history, back, 'noise');
    if (Number.isNaN(noise)) continue;
    if (block(history, back, 'arc') === 0) {
      // The block in which it ended counts to the arc.
      if (back > 0 || loud.length > 0) quiet.push(noise);
      if (loud.length < numbers.arcNoiseBlocks) return [];
    } else if (block(history, back, 'arc') === block(history, back, 'values')) loud.push(noise);
  }
  if (loud.length < numbers.arcNoiseBlocks || quiet.length === 0) return [];
  const bursts = middle(loud.slice(0, 3));
  if (bursts < least || bursts < numbers.arcNoiseTimes * middle(quiet)) return [];
  return [
    {
      kind: 'arc-noise',
      probe,
      sure: bursts >= 2 * least ? 'clear' : 'likely',
      seen: { difference: Math.round(2 * bursts) },
    },
  ];
}
