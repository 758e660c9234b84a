/**
 * The comparisons at a limit, written once, each with the side that passes. Simple acceptance: the reading
 * is compared with the limit directly, and the limit itself passes. Guarded: the same comparison, once with the
 * reading moved by the band against the limit and once away from it; a band of zero is simple acceptance.
 */
import type { JoulesPerMetre, MilliCelsius, Millikelvin } from '../measure/quantity.ts';
import type { Bound } from '../weld/hand-reading.ts';

/** Minimum preheat and maintenance temperature: the limit passes. */
export const reaches = (temperature: MilliCelsius, minimum: MilliCelsius): boolean => temperature >= minimum;
/** Maximum interpass and highest temperature: the limit passes. */
export const staysWithin = (temperature: MilliCelsius, maximum: MilliCelsius): boolean => temperature <= maximum;
/** Evenness: the limit passes. */
const isEven = (spread: Millikelvin, maximum: Millikelvin): boolean => spread <= maximum;

/** Window of heat input: both limits pass; a side that is not stated passes everything. */
export const withinWindow = (
  energy: JoulesPerMetre,
  { minimum, maximum }: { readonly minimum?: JoulesPerMetre; readonly maximum?: JoulesPerMetre },
): 'within' | 'below' | 'above' => {
  if (minimum !== undefined && energy < minimum) return 'below';
  return maximum !== undefined && energy > maximum ? 'above' : 'within';
};

/** kept: beyond the band on the right side. broken: beyond it on the wrong one. within the band: neither is proven. */
export type Kept = 'kept' | 'broken' | 'within the band';

export const keepsMinimum = (temperature: MilliCelsius, minimum: MilliCelsius, band: Millikelvin): Kept =>
  proven(
    reaches((temperature - band) as MilliCelsius, minimum),
    reaches((temperature + band) as MilliCelsius, minimum),
  );
export const keepsMaximum = (temperature: MilliCelsius, maximum: MilliCelsius, band: Millikelvin): Kept =>
  proven(
    staysWithin((temperature + band) as MilliCelsius, maximum),
    staysWithin((temperature - band) as MilliCelsius, maximum),
  );
export const keepsEvenness = (spread: Millikelvin, maximum: Millikelvin, band: Millikelvin): Kept =>
  proven(isEven((spread + band) as Millikelvin, maximum), isEven((spread - band) as Millikelvin, maximum));

/** Whether it passes moved by the band against the limit, and moved away from it. */
const proven = (against: boolean, away: boolean): Kept => {
  if (against) return 'kept';
  return away ? 'within the band' : 'broken';
};

/**
 * A bound proves to one side only: "at least 150" that a minimum of 150 is kept, and nothing of one of 160; "below 150"
 * that a minimum of 150 is broken. Undefined where it says nothing of the limit.
 */
export const boundKeepsMinimum = (
  bound: Bound,
  temperature: MilliCelsius,
  minimum: MilliCelsius,
  band: Millikelvin,
): Kept | undefined =>
  bound === 'at least'
    ? oneSided((shift) => reaches((temperature - shift) as MilliCelsius, minimum), band, 'kept')
    : oneSided((shift) => staysWithin((temperature + shift) as MilliCelsius, minimum), band, 'broken');
export const boundKeepsMaximum = (
  bound: Bound,
  temperature: MilliCelsius,
  maximum: MilliCelsius,
  band: Millikelvin,
): Kept | undefined =>
  bound === 'below'
    ? oneSided((shift) => staysWithin((temperature + shift) as MilliCelsius, maximum), band, 'kept')
    : oneSided((shift) => !staysWithin((temperature - shift) as MilliCelsius, maximum), band, 'broken');

const oneSided = (proves: (shift: number) => boolean, band: number, what: Kept): Kept | undefined => {
  if (proves(band)) return what;
  return proves(0) ? 'within the band' : undefined;
};

/** Two readings of one place agree where they differ by no more than their combined expanded uncertainty. */
export const agree = (difference: Millikelvin, expanded: Millikelvin): boolean => Math.abs(difference) <= expanded;
