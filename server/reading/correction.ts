/**
 * What a calibration makes of a reading. Between two points of the certificate the correction runs straight, beyond
 * them the nearest point holds, and the certificate's uncertainty speaks only between its points.
 */
import type { MilliCelsius } from '../measure/quantity.ts';
import type { Correction } from '../weld/instrument.ts';
import { type Chain, calibratedOf } from './chain.ts';

export interface CorrectionThere {
  readonly kelvin: number;
  /** Standard uncertainty of the certificate: the larger of the two points. */
  readonly standardKelvin: number;
  /** Whether the temperature lies between points of the certificate. */
  readonly isInside: boolean;
}

/** At the temperature in degrees Celsius that the instrument reads; undefined without points. */
export function correctionAt(points: readonly Correction[], celsius: number): CorrectionThere | undefined {
  const above = points.find(({ atCelsius }) => atCelsius >= celsius);
  const below = points.findLast(({ atCelsius }) => atCelsius <= celsius);
  const nearest = above ?? below;
  if (nearest === undefined) return undefined;
  if (above === undefined || below === undefined)
    return { kelvin: nearest.correctionKelvin, standardKelvin: standardOf(nearest), isInside: false };
  const width = above.atCelsius - below.atCelsius;
  const share = width === 0 ? 0 : (celsius - below.atCelsius) / width;
  return {
    kelvin: below.correctionKelvin + (above.correctionKelvin - below.correctionKelvin) * share,
    standardKelvin: Math.max(standardOf(below), standardOf(above)),
    isInside: true,
  };
}

/** The reading with the corrections of all that it came through, each at what was read. The raw number is kept beside it. */
export function corrected(reading: MilliCelsius, chain: Chain): MilliCelsius {
  let kelvin = 0;
  for (const { corrections } of calibratedOf(chain))
    kelvin += correctionAt(corrections ?? [], reading / 1000)?.kelvin ?? 0;
  return (Math.round(reading + kelvin * 1000) + 0) as MilliCelsius;
}

const standardOf = ({ expandedKelvin, coverageFactor }: Correction): number => expandedKelvin / coverageFactor;
