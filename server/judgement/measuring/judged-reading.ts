/**
 * A reading as it is judged: with the corrections of its chain, and how uncertain it is. The recorded scan keeps what
 * came in, so that a correction entered later changes the judgement and never the record.
 */
import { difference, type Instant, type MilliCelsius, type Millikelvin } from '../../measure/quantity.ts';
import { chainOf } from '../../reading/chain.ts';
import { corrected } from '../../reading/correction.ts';
import { budgetOf } from '../../reading/uncertainty.ts';
import type { Probe } from '../../weld/probe.ts';
import type { GoodReading, State } from '../state.ts';
import { instrumentsNow } from './register.ts';

/** Uncertainty is reckoned where something is known of the instruments, or where the decision rule needs it. */
export const isUncertaintyKept = ({ joint }: Pick<State, 'joint'>): boolean =>
  joint.instruments !== undefined || joint.procedure?.decisionRule === 'guarded';

export function judgedReading(state: State, probe: Probe, at: Instant, temperature: MilliCelsius): GoodReading {
  if (!isUncertaintyKept(state)) return { at, temperature };
  const chain = chainOf(probe, instrumentsNow(state));
  const { standardKelvin, terms } = budgetOf(probe, chain, temperature / 1000);
  const judged = corrected(temperature, chain);
  return {
    at,
    temperature: judged,
    ...(judged === temperature ? {} : { correction: difference(judged, temperature) }),
    standardUncertainty: thousandths(standardKelvin),
    ...(terms.every(({ isKnown }) => isKnown) ? { isChainKnown: true } : {}),
  };
}

const thousandths = (kelvin: number): Millikelvin => Math.round(kelvin * 1000) as Millikelvin;
