/**
 * The sections of a joint: one through each part, with the probes that may drive it, as far as the joint alone tells.
 * Heat goes straight through only away from the edges: a place less than one thickness from the groove or from the
 * edge of the heater is not taken (a band's edge is still felt by 4 % there, exp(-pi) for insulated faces).
 */
import type { Joint } from '../weld/joint.ts';
import type { FarSide, Part } from '../weld/part.ts';
import type { Place, Probe } from '../weld/probe.ts';
import { depthOf, type Shape, shapeRefused } from './shape.ts';
import type { Band } from './sideways.ts';
import { steels } from './steel/list.ts';
import { type ThermalChoice, thermalChoiceOf } from './steel/of-part.ts';
import type { Steel } from './steel/steel.ts';

export interface JointSection {
  readonly part: string;
  readonly depthMillimetres: number;
  /** The face of the part that is heated: where the section begins. */
  readonly front: Place['face'];
  readonly farSide: FarSide;
  readonly frontProbes: readonly Probe[];
  readonly backProbes: readonly Probe[];
  /** Where the places lie in the heated band; absent where all is heated, as in a furnace. */
  readonly band?: Band;
  readonly shape?: Shape;
  readonly steel?: Steel;
  readonly steelBy?: ThermalChoice['by'];
  /** What stands in the way, the first thing to mend; the rest of the joint may still be right. */
  readonly lacks?: { readonly reason: SectionLack; readonly value?: number; readonly limit?: number };
}

export type SectionLack =
  | 'no heated width'
  | 'steel not known'
  | 'no outside diameter'
  | 'no probe on the heated face'
  | 'too near groove or heater edge'
  | 'heated from both faces, one measured'
  | 'far side takes heat that nobody can name'
  | 'thicker than is computed'
  | 'shape not possible';

export const jointSections = (joint: Joint): JointSection[] => joint.parts.map((part) => sectionOf(joint, part));

function sectionOf(joint: Joint, part: Part): JointSection {
  const { heating } = joint;
  const front = heating.face === 'back' ? 'back' : 'front';
  const shape = shapeOf(part, front);
  const choice = thermalChoiceOf(part);
  const onFront = placed(joint, part, (probe, face) => probe.use === 'zone' && face === front);
  const onBack = placed(
    joint,
    part,
    (probe, face) => (probe.use === 'zone' || probe.use === 'opposite face') && face !== front,
  );
  const frontProbes = onFront.filter((probe) => isInside(joint, part, probe.place!));
  const backProbes = part.form === 'bar' ? [] : onBack.filter((probe) => isInside(joint, part, probe.place!));
  const lacks =
    lackOfShape(part, shape) ??
    lackOfPlace(joint, part, onFront, frontProbes) ??
    (choice === undefined ? { reason: 'steel not known' as const } : undefined) ??
    lackOfFarSide(joint, part, backProbes);
  return {
    part: part.id,
    depthMillimetres: shape === undefined ? part.thicknessMillimetres : Math.round(depthOf(shape) * 1e6) / 1000,
    front,
    farSide: part.farSide ?? 'unknown',
    frontProbes,
    backProbes,
    ...bandOf(joint, frontProbes),
    ...(shape === undefined ? {} : { shape }),
    ...(choice === undefined ? {} : { steel: steels[choice.kind], steelBy: choice.by }),
    ...(lacks === undefined ? {} : { lacks }),
  };
}

function shapeOf(part: Part, front: Place['face']): Shape | undefined {
  const { thicknessMillimetres, outsideDiameterMillimetres } = part;
  if (part.form === 'bar')
    return { kind: 'bar', diameterMillimetres: outsideDiameterMillimetres ?? thicknessMillimetres };
  if (part.form !== 'tube') return { kind: 'plate', thicknessMillimetres };
  if (outsideDiameterMillimetres === undefined) return undefined;
  const face = front === 'front' ? 'outside' : 'inside';
  return { kind: 'tube', front: face, thicknessMillimetres, outsideDiameterMillimetres };
}

type Lack = NonNullable<JointSection['lacks']>;

function lackOfShape(part: Part, shape: Shape | undefined): Lack | undefined {
  if (shape === undefined) return { reason: 'no outside diameter' };
  const refused = shapeRefused(shape);
  if (refused === undefined) return undefined;
  return refused.refused === 'thickness not covered'
    ? { reason: 'thicker than is computed', value: part.thicknessMillimetres }
    : { reason: 'shape not possible' };
}

function lackOfPlace(joint: Joint, part: Part, all: readonly Probe[], inside: readonly Probe[]): Lack | undefined {
  const { means, halfWidthMillimetres } = joint.heating;
  if (means !== 'furnace' && halfWidthMillimetres === undefined) return { reason: 'no heated width' };
  if (all.length === 0) return { reason: 'no probe on the heated face' };
  if (inside.length > 0) return undefined;
  const distances = all.map((probe) => probe.place!.distanceMillimetres);
  return {
    reason: 'too near groove or heater edge',
    value: Math.max(...distances),
    limit: part.thicknessMillimetres,
  };
}

function lackOfFarSide(joint: Joint, part: Part, back: readonly Probe[]): Lack | undefined {
  if (back.length > 0 || part.form === 'bar') return undefined;
  if (joint.heating.face === 'both') return { reason: 'heated from both faces, one measured' };
  return part.farSide === 'colder mass or fluid' ? { reason: 'far side takes heat that nobody can name' } : undefined;
}

function bandOf({ heating }: Joint, probes: readonly Probe[]): Pick<JointSection, 'band'> {
  const { means, halfWidthMillimetres } = heating;
  if (means === 'furnace' || halfWidthMillimetres === undefined || probes.length === 0) return {};
  const distanceMillimetres = Math.max(...probes.map((probe) => probe.place!.distanceMillimetres));
  return { band: { halfWidthMillimetres, distanceMillimetres } };
}

const placed = (joint: Joint, part: Part, is: (probe: Probe, face: Place['face']) => boolean): Probe[] =>
  joint.probes.filter((probe) => probe.place?.part === part.id && is(probe, probe.place.face));

function isInside({ heating }: Joint, part: Part, { distanceMillimetres: at }: Place): boolean {
  const one = part.thicknessMillimetres;
  const { means, halfWidthMillimetres } = heating;
  if (means === 'furnace') return at >= one;
  return halfWidthMillimetres !== undefined && at >= one && halfWidthMillimetres - at >= one;
}
