/** What the coldest place is held against now: the minimum preheat, that of post-heating, and nothing once it may cool. */
import type { MilliCelsius } from '../../measure/quantity.ts';
import type { Assessment } from '../assessment.ts';

/** 'none': nothing is asked for now; undefined: the minimum is not known. */
export function leastNow({ phase, after, limits }: Assessment): MilliCelsius | undefined | 'none' {
  switch (phase) {
    case 'post-heating':
      return after?.postHeating?.minimum ?? 'none';
    case 'cooling':
    case 'waiting':
    case 'complete':
    case 'closed':
      return 'none';
    default:
      return limits.preheatMinimum;
  }
}
