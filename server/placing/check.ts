/**
 * The placed probes beside the published places: advice, never a verdict. What decides whether a joint can be
 * judged stands in judgement/places.ts and is not changed by anything here.
 */
import type { Joint } from '../weld/joint.ts';
import { partOn } from './frames.ts';
import { evenOutSeconds, type Face, isHeated, type Measuring, measuringFaces, measuringOf } from './rules.ts';
import { type Placed, placedOf } from './view.ts';

export type Advice =
  | { readonly kind: 'right'; readonly probe: string }
  | {
      readonly kind: 'too near' | 'too far';
      readonly probe: string;
      readonly distanceMillimetres: number;
      readonly wanted: Measuring;
    }
  /** On a face that the rules do not measure on. */
  | { readonly kind: 'wrong face'; readonly probe: string; readonly face: Face; readonly wanted: Face | undefined }
  /** Read there only with the heat off and evened out; the opposite face is better where it can be reached. */
  | {
      readonly kind: 'heated face';
      readonly probe: string;
      readonly waitSeconds: number;
      readonly better: Face | undefined;
    }
  | { readonly kind: 'not beside the weld'; readonly probe: string; readonly distanceMillimetres: number }
  | { readonly kind: 'missing side'; readonly side: 'A' | 'B'; readonly wanted: Measuring }
  | { readonly kind: 'no interpass place' };

/** One or more for each zone, interpass and opposite-face probe, then what is missing. */
export const adviceOn = (joint: Joint): Advice[] => [
  ...placedOf(joint.probes).flatMap((probe) => adviceOnProbe(joint, probe)),
  ...missingSides(joint),
  ...missingInterpass(joint),
];

/** A hand does not place to the millimetre. Own choice. */
const toleranceMillimetres = 5;
/** "Right beside the weld". Own choice of the number. */
const besideMillimetres = 10;
/** From this many times the zone on a probe says little about it. Own choice. */
const farTimes = 2;

const adviceOnProbe = (joint: Joint, probe: Placed): Advice[] => {
  const found = adviceFor(joint, probe);
  if (found === undefined) return [];
  return found.length === 0 ? [{ kind: 'right', probe: probe.id }] : found;
};

/** Undefined for a use that answers for nothing on the part. */
const adviceFor = (joint: Joint, probe: Placed): Advice[] | undefined => {
  switch (probe.use) {
    case 'zone':
      return [...distanceAdvice(joint, probe), ...faceAdvice(joint, probe)];
    case 'opposite face':
      return [...distanceAdvice(joint, probe), ...oppositeAdvice(joint, probe)];
    case 'interpass':
      return besideAdvice(probe);
    default:
      return undefined;
  }
};

const thicknessOf = (joint: Joint, { place }: Placed): number =>
  joint.parts.find(({ id }) => id === place.part)?.thicknessMillimetres ?? 0;

const distanceAdvice = (joint: Joint, probe: Placed): Advice[] => {
  const { distanceMillimetres: distance, side } = probe.place;
  const wanted = measuringOf(thicknessOf(joint, probe));
  const off = (kind: 'too near' | 'too far'): Advice[] => [
    { kind, probe: probe.id, distanceMillimetres: distance, wanted },
  ];
  if (wanted.kind === 'zone') {
    if (distance > farTimes * wanted.distanceMillimetres) return off('too far');
    // Another one at the edge of the zone lets this one measure within it.
    const edged = placedOf(joint.probes).some(
      ({ use, place }) =>
        use === probe.use && place.side === side && place.distanceMillimetres >= wanted.distanceMillimetres,
    );
    return distance >= wanted.distanceMillimetres || edged ? [] : off('too near');
  }
  if (distance < wanted.distanceMillimetres - toleranceMillimetres) return off('too near');
  return distance > wanted.distanceMillimetres + toleranceMillimetres ? off('too far') : [];
};

const faceAdvice = ({ heating, ...joint }: Joint, probe: Placed): Advice[] => {
  const { face } = probe.place;
  const [better] = measuringFaces(heating);
  if (!measuringFaces(heating).includes(face)) return [{ kind: 'wrong face', probe: probe.id, face, wanted: better }];
  if (!isHeated(heating, face)) return [];
  const waitSeconds = evenOutSeconds(Math.max(...joint.parts.map((part) => part.thicknessMillimetres)));
  return [{ kind: 'heated face', probe: probe.id, waitSeconds, better: better === face ? undefined : better }];
};

const oppositeAdvice = ({ heating }: Joint, { id, place: { face } }: Placed): Advice[] => {
  if (!isHeated(heating, face)) return [];
  const wanted = heating.face === 'both' ? undefined : heating.face === 'front' ? 'back' : 'front';
  return [{ kind: 'wrong face', probe: id, face, wanted }];
};

const besideAdvice = ({ id, place: { distanceMillimetres } }: Placed): Advice[] =>
  distanceMillimetres > besideMillimetres ? [{ kind: 'not beside the weld', probe: id, distanceMillimetres }] : [];

const missingSides = (joint: Joint): Advice[] =>
  (['A', 'B'] as const).flatMap((side): Advice[] => {
    const part = partOn(joint, side);
    if (part === undefined) return [];
    const wanted = measuringOf(part.thicknessMillimetres);
    const least = wanted.kind === 'zone' ? wanted.distanceMillimetres : 0;
    const measured = placedOf(joint.probes).some(
      ({ use, place }) => use === 'zone' && place.side === side && place.distanceMillimetres >= least,
    );
    return measured ? [] : [{ kind: 'missing side', side, wanted }];
  });

const missingInterpass = ({ probes, procedure }: Joint): Advice[] =>
  procedure?.interpassMaximumCelsius === undefined || probes.some(({ use }) => use === 'interpass')
    ? []
    : [{ kind: 'no interpass place' }];
