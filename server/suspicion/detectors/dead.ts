/**
 * Nothing comes from the tip. A dead input, or a pair shorted at its terminals, gives no voltage and reads the terminals;
 * a pair pinched elsewhere, or a tip that never lay on the part, stays flat while the part warms.
 */
import { block, minute, minutesOf } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import { companyOf, type Detector, middle, othersRose, reading, type View, type Watched } from '../view.ts';

export const dead: Detector = (view) =>
  view.watched.filter(({ onPart }) => onPart).flatMap((watched) => [...deadOf(view, watched)]);

function deadOf(view: View, watched: Watched): Sighting[] {
  const now = reading(watched);
  const terminals = block(watched.history, 0, 'terminals');
  const volts = middle([0, 1, 2].map((back) => Math.abs(block(watched.history, back, 'volts'))));
  const isDead = volts <= numbers.deadVolts;
  if (!isDead && !Number.isNaN(terminals)) return [];
  const others = middle(companyOf(view, watched).map(reading));
  // How far the others rose is a search through the hours that are remembered: asked only where all else speaks for it.
  const rose = (): number => othersRose(view, watched, numbers.deadOthersWarmer);
  if (isDead) {
    if (!(others - terminals >= numbers.deadOthersWarmer) || !(rose() >= numbers.deadOthersWarmer)) return [];
    return [deadSighting(watched, volts <= numbers.deadVolts / 4 ? 'clear' : 'likely', { now, others, terminals })];
  }
  // An instrument that gives temperatures only: flat, while the others have risen far and long enough ago.
  if (!(others - now >= numbers.flatOthersRose / 2)) return [];
  const risen = rose();
  const isFlat = risen >= numbers.flatOthersRose && spanOf(watched) <= numbers.flatShare * risen;
  return isFlat ? [deadSighting(watched, 'likely', { now, others })] : [];
}

const deadSighting = (
  { probe }: Watched,
  sure: Sighting['sure'],
  { now, others, terminals }: { readonly now: number; readonly others: number; readonly terminals?: number },
): Sighting => ({
  kind: 'dead-input',
  probe,
  sure,
  seen: {
    reading: Math.round(now),
    others: Math.round(others),
    ...(terminals === undefined ? {} : { terminals: Math.round(terminals) }),
  },
});

/** Warmest less coldest of all the minutes that are remembered. */
function spanOf({ history }: Watched): number {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let back = 0; back < minutesOf(history); back += 1) {
    const { mean } = minute(history, back)!;
    if (mean < lowest) lowest = mean;
    if (mean > highest) highest = mean;
  }
  return highest - lowest;
}
