/**
 * Where one would usually put zone probes. How many are needed is the procedure's to say and is never judged
 * from this: common practice, no standard states a number for preheat.
 */
import type { Joint } from '../weld/joint.ts';
import { partOn } from './frames.ts';
import { type Face, measuringFaces, measuringOf } from './rules.ts';

export interface SuggestedPlace {
  readonly side: 'A' | 'B';
  readonly face: Face;
  readonly distanceMillimetres: number;
  readonly clock?: number;
}

export interface Suggestion {
  readonly places: readonly SuggestedPlace[];
  /** Part whose outside diameter has to be known first. */
  readonly asks?: string;
}

/** Up to this outside diameter two clock positions are usual, above it four. */
const smallPipeMillimetres = 150;

export const suggestionFor = (joint: Joint): Suggestion => {
  const round = joint.jointType === 'pipe butt' || joint.jointType === 'nozzle or branch' || isRound(joint);
  // A branch goes by its own diameter, whatever it is set into.
  const part = partOn(joint, joint.jointType === 'nozzle or branch' ? 'B' : 'A');
  if (!round || part === undefined) return { places: placesAt(joint, [undefined]) };
  const diameter = part.outsideDiameterMillimetres;
  if (diameter === undefined) return { places: [], asks: part.id };
  return { places: placesAt(joint, diameter <= smallPipeMillimetres ? [12, 6] : [12, 3, 6, 9]) };
};

const isRound = (joint: Joint): boolean => {
  const form = partOn(joint, 'A')?.form;
  return (
    (joint.jointType === 'build-up' || joint.jointType === 'casting repair') && (form === 'tube' || form === 'bar')
  );
};

const placesAt = (joint: Joint, clocks: readonly (number | undefined)[]): SuggestedPlace[] =>
  (['A', 'B'] as const).flatMap((side) => {
    const part = partOn(joint, side);
    if (part === undefined) return [];
    const { distanceMillimetres } = measuringOf(part.thicknessMillimetres);
    // The inside of a pipe can seldom be reached.
    const face = clocks[0] === undefined ? measuringFaces(joint.heating)[0]! : 'front';
    return clocks.map((clock) => ({ side, face, distanceMillimetres, ...(clock === undefined ? {} : { clock }) }));
  });
