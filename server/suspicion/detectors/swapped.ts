/**
 * Two probes in each other's place: while the part is heated one on the colder face, or in the air, reads what belongs to
 * the heated face, and the other way round. Each has to fit the company of the other's place better than its own.
 */
import { numbers } from '../numbers.ts';
import { type Sighting, signKinds } from '../sign.ts';
import { type Detector, middle, overBlocks, type View, type Watched } from '../view.ts';

export const swapped: Detector = (view) => {
  if (view.welding) return [];
  const able = view.watched.filter((each) => each.trusted && !hasGraverSign(view, each) && rankOf(each) !== undefined);
  return able.flatMap((high) => {
    const low = partnerOf(view, high, able);
    return low === undefined ? [] : [sighting(high, low), sighting(low, high)];
  });
};

/** How near to the heater: the heated face, the other face, the air. */
function rankOf({ onPart, heated, use }: Watched): number | undefined {
  if (use === 'ambient') return 0;
  if (!onPart || use === 'interpass') return undefined;
  return heated ? 2 : 1;
}

function partnerOf(view: View, high: Watched, able: readonly Watched[]): Watched | undefined {
  const own = level(high);
  const found = able
    .filter((low) => rankOf(low)! < rankOf(high)! && level(low) - own >= numbers.swappedApart)
    .filter((low) => stays(high, low) && fits(high, low, able) && isBeside(high, low))
    .sort((a, b) => level(b) - level(a))[0];
  return found !== undefined && view.heat !== 'off' ? found : undefined;
}

/** Beside the heater's reach the order of faces says nothing. */
const isBeside = ({ place: a }: Watched, { place: b }: Watched): boolean =>
  a === undefined ||
  b === undefined ||
  Math.abs(a.distanceMillimetres - b.distanceMillimetres) <= numbers.peerMillimetres;

const level = (each: Watched): number => overBlocks(each, 'mean', 0, 3);

const stays = (high: Watched, low: Watched): boolean =>
  overBlocks(low, 'mean', numbers.swappedBlocks - 1, 1) - overBlocks(high, 'mean', numbers.swappedBlocks - 1, 1) >=
  numbers.swappedApart;

/** Each reads like the company of the other's place, its twins before all others of that rank. */
function fits(high: Watched, low: Watched, able: readonly Watched[]): boolean {
  const company = (of: Watched): number => {
    const others = able.filter((each) => each !== high && each !== low && rankOf(each) === rankOf(of));
    const same = others.filter(({ place }) => place?.part === of.place?.part);
    return middle((same.length > 0 ? same : others).map(level));
  };
  const [above, below] = [company(high), company(low)];
  const lowFits = Math.abs(level(low) - above) <= numbers.swappedFitsHot * Math.abs(above - level(high));
  // Where nobody else is in the air, that is known by the part alone.
  const highFits =
    Number.isNaN(below) || Math.abs(level(high) - below) <= numbers.swappedFits * Math.abs(below - level(low));
  return lowFits && highFits;
}

/** One that explains what it reads; a difference from a twin does not. */
const hasGraverSign = (view: View, { probe }: Watched): boolean => {
  const kind = view.suspects.get(probe);
  return kind !== undefined && signKinds.indexOf(kind) < signKinds.indexOf('swapped');
};

const sighting = ({ probe }: Watched, other: Watched): Sighting => ({
  kind: 'swapped',
  probe,
  sure: 'likely',
  against: other.probe,
  seen: { others: Math.round(level(other)) },
});
