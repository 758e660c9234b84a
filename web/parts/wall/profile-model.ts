/**
 * What lies between the faces of one part now, as plain data in pixels: what to draw and nothing about how. The heated
 * face is on the left, the far one on the right, temperature goes up. Every part of a joint is drawn on one scale, so
 * that two parts beside each other compare by eye.
 */
import type { SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { spread } from '../../../server/placing/spread.ts';
import { boundedText, limitText } from '../../../server/wording/temperature.ts';
import { type Scale, valueScale } from '../../chart/axis.ts';
import { depthTicks } from './depth.ts';

/** A probe that drives the section, with a present reading. */
export interface FaceReading {
  readonly probe: string;
  readonly face: 'heated' | 'far';
  readonly temperature: MilliCelsius;
  /** As the rest of the page shows it. */
  readonly value: string;
}

export interface ProfileInput {
  readonly section: SectionStatus;
  readonly readings: readonly FaceReading[];
  readonly minimum: MilliCelsius | undefined;
  readonly units: UnitSystem;
  readonly scale: Scale;
  readonly width: number;
}

export interface FaceMark {
  /** The computed far face where no probe measures it. */
  readonly kind: 'measured' | 'computed';
  readonly face: 'heated' | 'far';
  readonly x: number;
  readonly y: number;
  readonly labelY: number;
  /** Name first, then value; a range breaks into two lines. */
  readonly lines: readonly string[];
}

export interface ProfilePicture {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Corners of the band, and points of the likely line. */
  readonly band: readonly (readonly [number, number])[];
  readonly likely: readonly (readonly [number, number])[];
  readonly minimum?: { readonly y: number; readonly text: string };
  readonly coldest: { readonly x: number; readonly y: number };
  readonly marks: readonly FaceMark[];
  readonly depths: readonly { readonly x: number; readonly text: string }[];
  readonly degrees: readonly { readonly y: number; readonly text: string }[];
}

/** Undefined while nothing is computed: then there are no axes either. */
export const profilePicture = (input: ProfileInput): ProfilePicture | undefined => {
  const { section, minimum, units, scale, width } = input;
  const { profile, depthMillimetres } = section;
  if (profile === undefined) return undefined;
  const narrow = width < 420;
  const height = narrow ? 250 : 290;
  const [left, right, top, bottom] = [narrow ? 104 : 124, width - (narrow ? 76 : 96), 40, height - 40];
  const x = (part: number): number => left + part * (right - left);
  const y = (celsius: number): number => bottom - ((celsius - scale.low) / (scale.high - scale.low)) * (bottom - top);
  const line = (values: readonly MilliCelsius[]): (readonly [number, number])[] =>
    values.map((value, index) => [x(index / (values.length - 1)), y(value / 1000)]);
  const low = profile.low.indexOf(Math.min(...profile.low) as MilliCelsius);
  return {
    ...{ width, height, left, right, top, bottom },
    band: [...line(profile.high), ...line(profile.low).reverse()],
    likely: line(profile.likely),
    ...(minimum === undefined
      ? {}
      : { minimum: { y: y(minimum / 1000), text: `minimum ${limitText(minimum, units)}` } }),
    coldest: { x: x(low / (profile.low.length - 1)), y: y(profile.low[low]! / 1000) },
    marks: marksOf(input, { left, right, top, bottom }, y),
    depths: depthTicks(depthMillimetres, units, narrow ? 4 : 6).map(({ millimetres, text }) => ({
      x: x(millimetres / depthMillimetres),
      text,
    })),
    degrees: scale.ticks.map(({ at, text }) => ({ y: y(at), text })),
  };
};

/** One scale for all parts: all that is computed or measured, and the minimum. */
export const scaleOf = (
  sections: readonly SectionStatus[],
  readings: readonly FaceReading[],
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
): Scale =>
  valueScale(
    [
      ...sections.flatMap(({ profile }) => (profile === undefined ? [] : [...profile.low, ...profile.high])),
      ...readings.map(({ temperature }) => temperature),
    ].map((value) => value / 1000),
    minimum === undefined ? [] : [minimum / 1000],
    6,
    units,
  );

/** Labels of one face stand under each other in the order of their temperatures, each as near its point as can be. */
const marksOf = (
  { section, readings, minimum, units }: ProfileInput,
  { left, right, top, bottom }: Pick<ProfilePicture, 'left' | 'right' | 'top' | 'bottom'>,
  y: (celsius: number) => number,
): FaceMark[] => {
  const { farFace, farMeasured, profile } = section;
  const face = (which: FaceReading['face']): FaceMark[] => {
    const measured = readings
      .filter((each) => each.face === which)
      .map(({ probe, temperature, value }) => ({
        kind: 'measured' as const,
        at: y(temperature / 1000),
        lines: [probe, value],
      }));
    const computed =
      which === 'far' && !farMeasured && farFace !== undefined && profile !== undefined
        ? [
            {
              kind: 'computed' as const,
              at: y(farFace.likely / 1000),
              lines: ['computed', ...boundedText(farFace, units, { limit: minimum }).split(/(?<=to) /)],
            },
          ]
        : [];
    const all = [...measured, ...computed];
    const labels = spread(
      all.map(({ at }) => at),
      17 * Math.max(2, ...all.map(({ lines }) => lines.length)),
      top + 8,
      bottom - 8,
    );
    return all.map(({ kind, at, lines }, index) => ({
      ...{ kind, face: which, lines },
      x: which === 'heated' ? left : right,
      y: at,
      labelY: labels[index]!,
    }));
  };
  return [...face('heated'), ...face('far')];
};
