/**
 * The plan, to scale: what one sees looking onto the faces. A straight weld shows both parts laid flat on
 * either side of it; a pipe or shaft is seen along its axis, a branch along its own; a repair shows its cavity
 * with the zone all round it. Pure.
 */
import type { Joint } from '../weld/joint.ts';
import { type Frame, layoutOf, partOn } from './frames.ts';
import { branchPlan, roundPlan } from './plan-round.ts';
import { heatedDistanceOf, measuringOf } from './rules.ts';
import { reachesOf } from './section.ts';
import { type Liberty, type Mark, placedOf, type Steel, type Vector, type View } from './view.ts';

export const planOf = (joint: Joint): View => {
  const form = partOn(joint, 'A')?.form;
  const isRound = form === 'bar' || form === 'tube';
  if (joint.jointType === 'nozzle or branch') return branchPlan(joint);
  if (joint.jointType === 'pipe butt') return roundPlan(joint);
  if (isRound && (joint.jointType === 'build-up' || joint.jointType === 'casting repair')) return roundPlan(joint);
  return straightPlan(joint);
};

/** Both faces laid flat; the weld runs from top to bottom. A repair is a patch, and its zone closes round it. */
const straightPlan = (joint: Joint): View => {
  const layout = layoutOf(joint);
  const { a, b, single } = layout;
  const reaches = reachesOf(joint, layout);
  const toA = a.along[0] < 0 ? -1 : 1;
  const edges = { A: edgeOf(a), B: edgeOf(b) };
  const spanA = edges.A + reaches.A;
  const spanB = edges.B + reaches.B;
  const zone = { A: zoneOf(a), B: zoneOf(b) };
  const heated = heatedDistanceOf(joint)?.distanceMillimetres;
  const half = single ? (edges.A + edges.B) * 0.7 : 0;
  // A straight weld goes on above and below; how long it is, is not in the joint's facts.
  const length = single ? 2 * (half + Math.max(reaches.A, reaches.B)) : Math.max(60, (spanA + spanB) * 0.55);
  const x = (side: 'A' | 'B', distance: number): number => (side === 'A' ? toA : -toA) * (edges[side] + distance);
  const band = (extra: { readonly A: number; readonly B: number }): Vector[] => {
    const [left, right] = [x('A', extra.A), x('B', extra.B)].sort((one, other) => one - other) as [number, number];
    const y = single ? half + Math.max(extra.A, extra.B) : length / 2;
    return rectangle(left, -y, right, y);
  };
  const steel = (['A', 'B'] as const).map((side): Steel => {
    const frame = side === 'A' ? a : b;
    const far = x(side, reaches[side]);
    return {
      points: rectangle(Math.min(0, far), -length / 2, Math.max(0, far), length / 2),
      part: { ...(single ? {} : { side }), id: frame.part, thicknessMillimetres: frame.thickness },
      middle: [x(side, reaches[side] * 0.5), length * 0.43],
      room: reaches[side] * 0.9,
    };
  });
  const marks = marksOf(joint, reaches, length, single ? 2 * half : length, x);
  return {
    arrangement: 'around',
    steel: single ? [{ ...steel[0]!, points: rectangle(-spanA, -length / 2, spanB, length / 2) }] : steel,
    weld: [band({ A: 0, B: 0 })],
    zoneLines: [],
    zoneAreas: [band(zone)],
    heatedLines: [],
    heatedAreas: heated === undefined ? [] : [band({ A: heated, B: heated })],
    marks,
    axes: [],
    words: [],
    liberties: [
      ...(single ? [{ kind: 'cavity schematic' } as Liberty] : []),
      ...(marks.length === 0 ? [] : [{ kind: 'positions along the weld' } as Liberty]),
    ],
  };
};

/** Half of the weld's width on this side, as it is drawn in the section. */
const edgeOf = ({ origin, along }: Frame): number => Math.max(0, origin[0] * along[0] + origin[1] * along[1]);
const zoneOf = ({ thickness }: Frame): number => measuringOf(thickness).distanceMillimetres;

const rectangle = (left: number, top: number, right: number, bottom: number): Vector[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
];

/** Where along the weld a probe sits is not stated: those of one side are spread evenly, in their order. */
const marksOf = (
  joint: Joint,
  reaches: { readonly A: number; readonly B: number },
  length: number,
  along: number,
  x: (side: 'A' | 'B', distance: number) => number,
): Mark[] =>
  (['A', 'B'] as const).flatMap((side) => {
    const probes = placedOf(joint.probes).filter(({ place }) => place.side === side);
    return probes.map((probe, index): Mark => {
      const { distanceMillimetres, face } = probe.place;
      const beyond = distanceMillimetres > reaches[side];
      const at = x(side, Math.min(distanceMillimetres, reaches[side]));
      const y = ((index + 0.5) / probes.length - 0.5) * Math.min(along, length) * 0.86;
      return { probe, at: [at, y], out: [Math.sign(x(side, 1)), 0], hidden: face === 'back', beyond };
    });
  });
