/** A reading as it came in, with what the calibrations of its instruments add: what is judged, and what a page shows. */
import type { Assessment } from '../../server/judgement/assessment.ts';
import type { MilliCelsius } from '../../server/measure/quantity.ts';
import { chainOf } from '../../server/reading/chain.ts';
import { corrected } from '../../server/reading/correction.ts';
import type { LiveReading } from '../../server/screen/contract.ts';
import type { Joint } from '../../server/weld/joint.ts';

export function asJudged(
  reading: LiveReading,
  { joint, assessment }: { readonly joint: Joint; readonly assessment: Assessment },
): LiveReading {
  const { temperature, probe: id } = reading;
  const probe = joint.probes.find((each) => each.id === id);
  if (temperature === undefined || probe === undefined || assessment.instruments === undefined) return reading;
  const register = assessment.instruments.map(({ instrument }) => instrument);
  return { ...reading, temperature: corrected(temperature as MilliCelsius, chainOf(probe, register)) };
}

/** Changes whenever what is added to a reading may have changed: what was drawn before is then to be asked for again. */
export const correctionsKey = ({ instruments = [] }: Assessment): string =>
  JSON.stringify(instruments.map(({ instrument }) => [instrument.id, instrument.corrections]));
