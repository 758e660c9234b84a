/**
 * Plans of what is round. A pipe or shaft is seen along its axis, with probes at their clock positions; a
 * branch is seen along its own axis, on the shell it is set into. Where the diameter is not stated the circle
 * is schematic and says so; a probe without a clock position is named and not put anywhere.
 */
import type { Joint } from '../weld/joint.ts';
import { layoutOf, partOn } from './frames.ts';
import { heatedDistanceOf, measuringOf } from './rules.ts';
import { reachesOf } from './section.ts';
import { type Liberty, type Mark, type Placed, placedOf, type Vector, type View } from './view.ts';

export const roundPlan = (joint: Joint): View => {
  const part = partOn(joint, 'A');
  const other = partOn(joint, 'B');
  const stated = part?.outsideDiameterMillimetres ?? other?.outsideDiameterMillimetres;
  const wall = part?.thicknessMillimetres ?? 20;
  const isBar = part?.form === 'bar';
  const radius = (stated ?? Math.max(8 * wall, 100)) / 2;
  const bore = isBar ? 0 : Math.max(0, radius - wall);
  const layer = joint.jointType === 'build-up' ? Math.max(radius * 0.04, 2) : 0;
  const deep = joint.jointType === 'casting repair' ? Math.min(wall, radius) * 0.35 : 0;
  const heated: number[] = [
    ...(joint.heating.face === 'back' && !isBar ? [] : [radius * 1.04 + layer]),
    ...(joint.heating.face === 'front' || isBar ? [] : [bore * 0.95]),
  ];
  const radiusOf = ({ place }: Placed): number => (place.face === 'front' || isBar ? radius + layer : bore);
  return {
    ...bare(joint, radiusOf),
    steel: [
      {
        points: circle(radius),
        ...(bore > 0 ? { hole: circle(bore) } : {}),
        part: { id: part?.id ?? '', thicknessMillimetres: wall },
        middle: [0, bore > 0 ? -bore * 0.25 : radius * 0.45],
        room: (bore > 0 ? bore : radius) * 1.5,
      },
    ],
    weld: layer > 0 ? [sector(radius, radius + layer)] : deep > 0 ? [sector(radius - deep, radius)] : [],
    heatedAreas: heated.filter((each) => each > 0).map((each) => circle(each)),
    axes: cross(radius),
    words: hours(bore > 0 ? bore * 0.82 : radius * 0.82),
    liberties: [...missingDiameter(stated, part?.id ?? ''), ...missingClock(joint)],
  };
};

export const branchPlan = (joint: Joint): View => {
  const layout = layoutOf(joint);
  const { a, b } = layout;
  const branch = partOn(joint, 'B');
  const stated = branch?.outsideDiameterMillimetres;
  const radius = (stated ?? Math.max(8 * b.thickness, 100)) / 2;
  const bore = Math.max(0, radius - b.thickness);
  const toe = radius + a.origin[0];
  const reach = reachesOf(joint, layout).A;
  const half = toe + reach;
  const heated = heatedDistanceOf(joint)?.distanceMillimetres;
  const radiusOf = ({ place: { side, face, distanceMillimetres } }: Placed): number =>
    side === 'A' ? toe + Math.min(distanceMillimetres, reach) : face === 'front' ? radius : bore;
  return {
    ...bare(joint, radiusOf),
    steel: [
      {
        points: [
          [-half, -half],
          [half, -half],
          [half, half],
          [-half, half],
        ],
        ...(bore > 0 ? { hole: circle(bore) } : {}),
        part: { side: 'A', id: a.part, thicknessMillimetres: a.thickness },
        middle: [0, half * 0.94],
        room: half * 1.8,
      },
      {
        points: circle(radius),
        ...(bore > 0 ? { hole: circle(bore) } : {}),
        part: { side: 'B', id: b.part, thicknessMillimetres: b.thickness },
        middle: [0, -bore * 0.25],
        room: bore * 1.5,
      },
    ],
    // The weld runs round the branch and leaves the branch itself to be seen.
    weld: [ring(radius, toe)],
    zoneAreas: [circle(toe + measuringOf(a.thickness).distanceMillimetres)],
    heatedAreas: heated === undefined ? [] : [circle(toe + heated)],
    axes: cross(half),
    words: hours(bore * 0.8),
    liberties: [...missingDiameter(stated, b.part), ...missingClock(joint)],
  };
};

const bare = (
  joint: Joint,
  radiusOf: (probe: Placed) => number,
): Pick<View, 'arrangement' | 'zoneLines' | 'zoneAreas' | 'heatedLines' | 'marks'> => ({
  arrangement: 'around',
  zoneLines: [],
  zoneAreas: [],
  heatedLines: [],
  marks: placedOf(joint.probes)
    .filter(({ place }) => place.clock !== undefined)
    .map((probe): Mark => {
      const clock = probe.place.clock!;
      const at = onClock(clock, radiusOf(probe));
      return { probe, at, out: onClock(clock, 1), hidden: probe.place.face === 'back', beyond: false };
    }),
});

/** 12 o'clock is up, and the hours run as on a clock. */
const onClock = (clock: number, radius: number): Vector => [
  radius * Math.sin((clock / 6) * Math.PI),
  -radius * Math.cos((clock / 6) * Math.PI),
];

const steps = 96;
const circle = (radius: number): Vector[] =>
  Array.from({ length: steps }, (_, index) => onClock((index * 12) / steps, radius));

/** A layer over the upper sixth: how far round it goes is not in the joint's facts. */
const sector = (inner: number, outer: number): Vector[] => {
  const hoursRound = Array.from({ length: 13 }, (_, index) => -1 + index / 6);
  return [
    ...hoursRound.map((hour) => onClock(hour, outer)),
    ...hoursRound.toReversed().map((hour) => onClock(hour, inner)),
  ];
};

const ring = (inner: number, outer: number): Vector[] => [
  ...circle(outer),
  circle(outer)[0]!,
  circle(inner)[0]!,
  ...circle(inner).toReversed(),
];

const cross = (radius: number): (readonly [Vector, Vector])[] => [
  [
    [-radius * 1.06, 0],
    [radius * 1.06, 0],
  ],
  [
    [0, -radius * 1.06],
    [0, radius * 1.06],
  ],
];

const hours = (radius: number): View['words'] =>
  radius <= 0 ? [] : [12, 3, 6, 9].map((hour) => ({ text: `${hour}`, at: onClock(hour, radius), anchor: 'middle' }));

const missingDiameter = (stated: number | undefined, part: string): Liberty[] =>
  stated === undefined ? [{ kind: 'diameter missing', part }] : [];

const missingClock = (joint: Joint): Liberty[] => {
  const probes = placedOf(joint.probes)
    .filter(({ place }) => place.clock === undefined)
    .map(({ id }) => id);
  return probes.length === 0 ? [] : [{ kind: 'clock missing', probes }];
};
