/**
 * Two probes at one place that differ by more than their tolerances. What the difference does as the part warms tells the
 * cause: a constant share of the rise is a wrong type or a lost part of the voltage, a share that grows comes from a cable
 * whose head warms later, and one that grows while the part is held is drift. Without a twin none of these is told.
 */
import { block, minute, minutesOf } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting, SignKind } from '../sign.ts';
import { type Detector, middle, overBlocks, peersOf, twinOf, type View, type Watched } from '../view.ts';

export const twins: Detector = (view) =>
  view.watched.filter(({ onPart }) => onPart).flatMap((watched) => apartOf(view, watched));

function apartOf(view: View, watched: Watched): Sighting[] {
  if (watched.flame) return [];
  const twin = twinOf(view, watched);
  if (twin === undefined) return [];
  const errors = Array.from(
    { length: numbers.twinsBlocks },
    (_, back) => block(watched.history, back, 'mean') - block(twin.history, back, 'mean'),
  );
  const error = middle(errors);
  const apart = errors.every((each) => Math.abs(each) >= numbers.twinsApart && each * error > 0);
  if (!apart || !isTheOddOne(view, watched, twin, error)) return [];
  const base = baseOf(watched);
  const rise = block(twin.history, 0, 'mean') - base;
  // While the part is cold a difference is an offset; in between it may still be anything.
  const isCold = Math.abs(rise) < numbers.twinsApart;
  if (!isCold && rise < numbers.shareFrom) return [];
  return [
    {
      kind: isCold ? 'drift' : kindOf(watched, twin, error, rise),
      probe: watched.probe,
      sure: 'possible',
      against: twin.probe,
      seen: {
        difference: Math.round(error),
        others: Math.round(block(twin.history, 0, 'mean')),
        reading: Math.round(block(watched.history, 0, 'mean')),
        ...(isCold ? {} : { share: Math.round(100 * (1 + error / rise)) }),
      },
    },
  ];
}

/**
 * Others of its face decide which of the two is off, if they are near to one of them, those of another plate only if very
 * near; else the one in use is told, with the spare's name.
 */
function isTheOddOne(view: View, watched: Watched, twin: Watched, error: number): boolean {
  const others = peersOf(view, watched).filter((each) => each !== twin);
  const same = others.filter(({ place }) => place?.part === watched.place?.part);
  const near = same.length > 0 ? same : others;
  const level = middle(near.map((each) => overBlocks(each, 'mean', 0, 3)));
  const nearer = Math.abs(overBlocks(watched, 'mean', 0, 3) - level) - Math.abs(overBlocks(twin, 'mean', 0, 3) - level);
  // Plates that are heated unevenly differ by as much as a small error does.
  const tells = same.length > 0 || Math.abs(error) >= numbers.twinsAfarFrom;
  const least = same.length > 0 ? numbers.twinsDecided : numbers.twinsDecidedAfar;
  if (tells && Math.abs(nearer) >= least * Math.abs(error)) return nearer > 0;
  return watched.use !== 'spare';
}

/** The terminals, or where nobody tells them what it read first. */
function baseOf({ history }: Watched): number {
  const terminals = block(history, 0, 'terminals');
  return Number.isNaN(terminals) ? (minute(history, minutesOf(history) - 1)?.mean ?? Number.NaN) : terminals;
}

function kindOf(watched: Watched, twin: Watched, error: number, rise: number): SignKind {
  const grown = grownWhileHeld(watched, twin, error);
  if (grown) return 'drift';
  const before = shareAtHalf(watched, twin, rise);
  const now = error / rise;
  if (before !== undefined && Math.abs(now) >= numbers.shareGrew * Math.abs(before) && now < 0)
    return Math.abs(now) >= copperShare ? 'reversed-extension' : 'copper-extension';
  return isOfType(1 + now) ? 'wrong-type' : now > 0 ? 'drift' : 'short';
}

/** A head warms to a sixth or so of what the tip is above the air: copper loses once that, a crossed cable twice. Own choice. */
const copperShare = 0.2;

/** Shares that other wires or settings give of a rise, thermal voltages of IEC 60584-1 over 50 to 400 degrees from 25. */
const isOfType = (share: number): boolean => typeShares.some(([low, high]) => share >= low && share <= high);
const typeShares: readonly (readonly [number, number])[] = [
  [0.14, 0.22],
  [0.55, 0.88],
  [1.02, 1.8],
];

/** The error's share of the rise when the twin stood at half of its rise; undefined where that is not remembered. */
function shareAtHalf(watched: Watched, twin: Watched, rise: number): number | undefined {
  const base = baseOf(twin);
  for (let back = 0; back < minutesOf(twin.history); back += 1) {
    const then = minute(twin.history, back)!;
    const risen = then.mean - base;
    if (risen > 0.55 * rise) continue;
    const own = minute(watched.history, back);
    if (own === undefined || Math.abs(own.at - then.at) > numbers.minute || risen < 0.3 * rise) return undefined;
    return (own.mean - then.mean) / risen;
  }
  return undefined;
}

/** The twin changed little and the error much. */
function grownWhileHeld(watched: Watched, twin: Watched, error: number): boolean {
  const [own, other] = [minute(watched.history, numbers.driftMinutes), minute(twin.history, numbers.driftMinutes)];
  if (own === undefined || other === undefined) return false;
  const grew = Math.abs(error) - Math.abs(own.mean - other.mean);
  return grew >= numbers.driftGrew && Math.abs(block(twin.history, 0, 'mean') - other.mean) < grew;
}
