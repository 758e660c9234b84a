/** The numbers of a finding beside their limit, each as the tail of its sentence; empty where there is none. */
import type { Finding } from '../judgement/assessment.ts';
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { atMostText, differenceLimitText, differenceText, ofLimitText } from './temperature.ts';
import { durationText } from './time.ts';

type Numbers = Pick<Finding, 'value' | 'limit' | 'bound'>;

export const reached = ({ value, limit, bound }: Numbers, units: UnitSystem): string =>
  value === undefined
    ? ''
    : `: ${ofLimitText(value as MilliCelsius, limit as MilliCelsius | undefined, units, undefined, bound)}`;

export const capped = ({ value, limit, bound }: Numbers, units: UnitSystem): string =>
  value === undefined ? '' : `: ${atMostText(value as MilliCelsius, limit as MilliCelsius | undefined, units, bound)}`;

export const only = ({ value, bound }: Numbers, units: UnitSystem): string =>
  value === undefined ? '' : `: ${ofLimitText(value as MilliCelsius, undefined, units, undefined, bound)}`;

export const spread = ({ value, limit }: Numbers, units: UnitSystem): string => {
  if (value === undefined) return '';
  const number = differenceText(value as Millikelvin, units, { limit: limit as Millikelvin | undefined });
  return limit === undefined
    ? `: ${number}`
    : `: ${number}, at most ${differenceLimitText(limit as Millikelvin, units)}`;
};

export const lasted = ({ value, limit }: Numbers): string => {
  if (value === undefined) return '';
  const done = durationText(value as Milliseconds);
  return limit === undefined ? `: ${done}` : `: ${done} of ${durationText(limit as Milliseconds)}`;
};

export const gap = ({ value }: Numbers): string =>
  value === undefined ? '' : ` for ${durationText(value as Milliseconds)}`;
