/**
 * Where and when to measure, and how far to heat, by published rules; each with its source and how well it is
 * known. Lengths in millimetres, times in seconds. The judge has its own numbers (judgement/rules.ts); a test
 * holds that the two agree.
 */
import type { CodeSet } from '../weld/code.ts';
import type { Joint } from '../weld/joint.ts';
import type { Place } from '../weld/probe.ts';

export type Known = 'verified' | 'second-hand' | 'from memory' | 'common practice';
export type Face = Place['face'];

export interface Measuring {
  /** at: at this distance from the groove edge. zone: the temperature exists over at least this in every direction. */
  readonly kind: 'at' | 'zone';
  readonly distanceMillimetres: number;
}

export const measuringSource = { source: 'ISO 13916', status: 'verified' } as const;
export const facingSource = { source: 'ISO 13916 and older EN and BS texts', status: 'from memory' } as const;

/** Where the preheat temperature is measured (ISO 13916). Above 50 mm it is a zone and no longer one distance. */
export const measuringOf = (thicknessMillimetres: number): Measuring =>
  thicknessMillimetres > 50
    ? { kind: 'zone', distanceMillimetres: 75 }
    : { kind: 'at', distanceMillimetres: Math.min(4 * thicknessMillimetres, 50) };

/** How long a heated face has to even out once the heat is off before it may be read: 2 min for each 25 mm. */
export const evenOutSeconds = (thicknessMillimetres: number): number => (thicknessMillimetres / 25) * 120;

/** Faces to measure on, the preferred one first: opposite the heat where that can be, else toward the welder. */
export const measuringFaces = ({ face }: Joint['heating']): readonly Face[] =>
  face === 'front' ? ['back', 'front'] : ['front'];

/** Read only with the heat off and evened out. */
export const isHeated = ({ face }: Joint['heating'], of: Face): boolean => face === 'both' || face === of;

export interface HeatedDistance {
  readonly code: string;
  /** From the groove edge, in every direction, at least. */
  readonly distanceMillimetres: number;
  readonly rule: string;
  readonly source: string;
  readonly status: Known;
}

/** What the codes ask to be heated, beside each other; the thickness is that of the thickest part. */
export const heatedDistances = (thicknessMillimetres: number): readonly HeatedDistance[] => {
  const t = thicknessMillimetres;
  return [
    {
      code: 'AWS D1.1',
      distanceMillimetres: Math.max(t, 75),
      rule: 'the thickness of the thickest part, not less than 75 mm, in all directions',
      source: 'AWS D1.1 clause 5.6',
      status: 'verified',
    },
    {
      code: 'ASME B31.3',
      distanceMillimetres: 25,
      rule: '25 mm beyond each edge of the weld',
      source: 'ASME B31.3 clause 330.1.4',
      status: 'verified',
    },
    {
      code: 'ASME B31.1',
      distanceMillimetres: Math.max(75, 1.5 * t),
      rule: '75 mm or 1.5 times the thickness, the greater',
      source: 'ASME B31.1',
      status: 'from memory',
    },
    {
      code: 'API RP 582',
      distanceMillimetres: 75,
      rule: 'the full thickness and 75 mm on each side',
      source: 'API RP 582 clause 8.2',
      status: 'verified',
    },
    {
      code: 'EN 1011-2',
      distanceMillimetres: measuringOf(t).distanceMillimetres,
      rule: 'as ISO 13916 measures',
      source: 'EN 1011-2',
      status: 'from memory',
    },
  ];
};

/** The chosen code's heated distance; undefined where the joint names no code. */
export const heatedDistanceOf = ({ codeSet, parts }: Pick<Joint, 'codeSet' | 'parts'>): HeatedDistance | undefined => {
  const thickest = Math.max(0, ...parts.map((part) => part.thicknessMillimetres));
  return codeSet === undefined ? undefined : heatedDistances(thickest).find(({ code }) => code === codeNames[codeSet]);
};

const codeNames: Readonly<Record<CodeSet, string>> = {
  'EN 1011-2': 'EN 1011-2',
  'AWS D1.1': 'AWS D1.1',
  'ASME B31.3:2014': 'ASME B31.3',
  'ASME B31.3:2010': 'ASME B31.3',
  'ASME B31.1': 'ASME B31.1',
};
