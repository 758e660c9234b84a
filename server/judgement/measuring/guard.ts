/**
 * The width of the guard band of a reading (ISO 14253-1: uncertainty counts against whoever has to prove), and
 * whether a reading lies so near a limit that its uncertainty reaches across.
 */
import type { MilliCelsius, Millikelvin } from '../../measure/quantity.ts';
import { expandedFactor } from '../rules.ts';
import type { State } from '../state.ts';

interface Uncertain {
  readonly standardUncertainty?: Millikelvin;
}

export const isGuarded = ({ joint }: State): boolean => joint.procedure?.decisionRule === 'guarded';

/** Zero under simple acceptance. */
export function bandOf(state: State, { standardUncertainty = 0 as Millikelvin }: Uncertain): Millikelvin {
  if (!isGuarded(state)) return 0 as Millikelvin;
  return Math.ceil(state.joint.procedure!.guardFactor! * standardUncertainty) as Millikelvin;
}

/** Of the difference of two readings, which are off independently. */
export function bandOfDifference(state: State, a: Uncertain, b: Uncertain): Millikelvin {
  const [first = 0, second = 0] = [a.standardUncertainty, b.standardUncertainty];
  const standardUncertainty = Math.sqrt(first * first + second * second) as Millikelvin;
  return bandOf(state, { standardUncertainty });
}

/** Whether the limit lies within the expanded uncertainty of the reading. False where uncertainty is not kept. */
export const isWithinUncertainty = (
  temperature: MilliCelsius,
  limit: MilliCelsius,
  { standardUncertainty }: Uncertain,
): boolean => standardUncertainty !== undefined && Math.abs(temperature - limit) < expandedFactor * standardUncertainty;
