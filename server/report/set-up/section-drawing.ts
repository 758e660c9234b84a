/**
 * The set-up as a section across the groove, to scale in distance and thickness, with every probe that has a
 * place. The groove itself is a mark: its form is not in the joint's facts and is not made up. Pure.
 */
import type { Joint } from '../../weld/joint.ts';
import type { Part } from '../../weld/part.ts';
import type { Probe } from '../../weld/probe.ts';
import { listText } from '../../wording/list.ts';
import { plain } from '../joint-words.ts';

export interface SectionDrawing {
  readonly sides: readonly SideDrawing[];
  /** Millimetres on each side that the drawing covers. */
  readonly reachMillimetres: number;
  readonly thickestMillimetres: number;
  readonly heatedFaces: readonly ('front' | 'back')[];
  readonly heatedBy: string;
  readonly clock: readonly { readonly probes: readonly string[]; readonly hour: number }[];
  readonly unplaced: readonly string[];
  readonly jointType: string;
  readonly caption: string;
}
export interface SideDrawing {
  readonly side: 'A' | 'B';
  readonly part: string;
  readonly thicknessMillimetres: number;
  readonly points: readonly PlacedPoint[];
}
/** Probes that share a place in the section: at other clock positions or along the weld. */
export interface PlacedPoint {
  readonly probes: readonly string[];
  readonly face: 'front' | 'back';
  readonly distanceMillimetres: number;
  /** Further out than the drawing reaches; drawn at its edge and said so. */
  readonly beyond: boolean;
}

export const sectionDrawing = (joint: Joint): SectionDrawing => {
  const parts = { A: partOn(joint, 'A'), B: partOn(joint, 'B') };
  const thickest = Math.max(parts.A.thicknessMillimetres, parts.B.thicknessMillimetres);
  const distances = joint.probes.flatMap(({ place }) => (place === undefined ? [] : [place.distanceMillimetres]));
  const furthest = Math.max(0, ...distances);
  // Far beyond the thickness a drawing to scale would show a line instead of a part.
  const reach = Math.max(thickest * 1.2, Math.min(furthest, thickest * 7)) * 1.08;
  const sides = (['A', 'B'] as const).map((side) => ({
    side,
    part: parts[side].id,
    thicknessMillimetres: parts[side].thicknessMillimetres,
    points: pointsOn(joint.probes, side, reach),
  }));
  const unplaced = joint.probes.filter(({ place }) => place === undefined).map(({ id }) => id);
  const others = joint.parts.filter(({ id }) => id !== parts.A.id && id !== parts.B.id);
  return {
    sides,
    reachMillimetres: reach,
    thickestMillimetres: thickest,
    heatedFaces: joint.heating.face === 'both' ? ['front', 'back'] : [joint.heating.face],
    heatedBy: joint.heating.means,
    clock: clockOf(joint.probes),
    unplaced,
    jointType: joint.jointType,
    caption: [
      'Section across the groove; thickness and distances from the groove are to one scale, the groove is a mark only.',
      `Heavy dashes: heated by ${joint.heating.means}.`,
      joint.jointType === 'plate butt' || joint.jointType === 'pipe butt'
        ? ''
        : `The parts of this ${joint.jointType} joint are laid out side by side.`,
      others.length === 0 ? '' : `Not drawn: ${listText(others.map(({ id }) => `part ${id}`))}.`,
      unplaced.length === 0 ? '' : `Without a place: ${listText(unplaced)}.`,
    ]
      .filter((text) => text !== '')
      .join(' '),
  };
};

/** The thickest part of a side stands for it. */
const partOn = ({ parts }: Joint, side: 'A' | 'B'): Part =>
  parts
    .filter((part) => part.side === side || part.side === 'both')
    .reduce(
      (a, b) => (b.thicknessMillimetres > a.thicknessMillimetres ? b : a),
      parts.find((part) => part.side === side) ?? parts[0]!,
    );

const pointsOn = (probes: readonly Probe[], side: 'A' | 'B', reach: number): PlacedPoint[] => {
  const points = new Map<
    string,
    { probes: string[]; face: 'front' | 'back'; distanceMillimetres: number; beyond: boolean }
  >();
  for (const { id, place } of probes) {
    if (place === undefined || place.side !== side) continue;
    const key = `${place.face} ${place.distanceMillimetres}`;
    const known = points.get(key);
    if (known !== undefined) known.probes.push(id);
    else {
      const { face, distanceMillimetres } = place;
      points.set(key, { probes: [id], face, distanceMillimetres, beyond: distanceMillimetres > reach });
    }
  }
  return [...points.values()].sort((a, b) => a.distanceMillimetres - b.distanceMillimetres);
};

const clockOf = (probes: readonly Probe[]): { probes: string[]; hour: number }[] => {
  const hours = new Map<number, string[]>();
  for (const { id, place } of probes) {
    if (place?.clock === undefined) continue;
    const hour = place.clock % 12;
    hours.set(hour, [...(hours.get(hour) ?? []), id]);
  }
  return [...hours].map(([hour, names]) => ({ hour, probes: names })).sort((a, b) => a.hour - b.hour);
};

/** "Z1 and Z2 at 75 mm"; of many probes the first names and how many more. */
export const pointText = ({ probes, distanceMillimetres, beyond }: PlacedPoint, namesShown = 6): string => {
  const rest = probes.length - namesShown;
  const names = rest <= 0 ? probes : [...probes.slice(0, namesShown), `${rest} more`];
  const who = namesShown === 0 ? `${probes.length} ${probes.length === 1 ? 'probe' : 'probes'}` : listText(names);
  return `${who} at ${plain(distanceMillimetres)} mm${beyond ? ' (further out than drawn)' : ''}`;
};
