/**
 * The comparisons at a limit, written once, each with the side that passes. Simple acceptance: the reading
 * is compared with the limit directly, and the limit itself passes.
 */
import type { MilliCelsius, Millikelvin } from '../measure/quantity.ts';

/** Minimum preheat and maintenance temperature: the limit passes. */
export const reaches = (temperature: MilliCelsius, minimum: MilliCelsius): boolean => temperature >= minimum;
/** Maximum interpass and highest temperature: the limit passes. */
export const staysWithin = (temperature: MilliCelsius, maximum: MilliCelsius): boolean => temperature <= maximum;
/** Evenness: the limit passes. */
export const isEven = (spread: Millikelvin, maximum: Millikelvin): boolean => spread <= maximum;
