/** The check of the probes at ambient in words. */
import type { AmbientOutcome, AmbientOutcomes, ProbeAtAmbient } from '../judgement/ambient/touch.ts';
import { milliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { AmbientCheck } from '../weld/ambient-check.ts';
import { signedDifferenceText, uncertaintyText } from './instrument.ts';
import { listText } from './list.ts';
import { limitText } from './temperature.ts';

/** What was found of one probe: a phrase without a full stop. */
export function outcomeText(
  { outcome, other, moved, apart }: Omit<ProbeAtAmbient, 'probe'>,
  units: UnitSystem,
): string {
  const by = moved === undefined ? '' : `, ${signedDifferenceText(moved, units)}`;
  switch (outcome) {
    case 'in order':
      return `in order${by}`;
    case 'no reading':
      return 'no reading';
    case 'not touched':
      return 'not touched';
    case 'does not move':
      return 'did not move when it was touched';
    case 'moves the wrong way':
      return `moved the wrong way${by}: its two wires are crossed`;
    case 'another moves':
      return `${other ?? 'another probe'} moved instead`;
    case 'changed places':
      return `has changed places with ${other ?? 'another probe'}`;
    case 'several move':
      return `moved together with ${other ?? 'another probe'}${by}`;
    case 'off at rest':
      return `moved rightly, but lay ${apart === undefined ? 'far' : signedDifferenceText(apart, units)} from the others at rest`;
  }
}

/** What to do first about it. */
export const outcomeAdvice: Readonly<Record<Exclude<AmbientOutcome, 'in order'>, string>> = {
  'no reading': 'Look at the plug and the wire, then check again.',
  'not touched': 'Touch it in its turn and record the check again.',
  'does not move':
    'See whether the tip is the one at this place, whether its wires are shorted, and whether its input is alive.',
  'moves the wrong way': 'Swap its two wires at the place where they were crossed, then check again.',
  'another moves': 'Follow the wire from tip to terminal; one of the two hangs on the channel of the other.',
  'changed places': 'Swap the two at the terminals, or correct the channels of the joint, then check again.',
  'several move': 'Keep the hand, the draught and the sun off the others, and touch it again.',
  'off at rest': 'Look for a wire or cable of another type or alloy, and for a tip that is not as cold as the rest.',
};

/** How the probes lay at rest: "8 probes within 0.9 K, +0.4 K from the air of 15 °C". */
export function restText({ spread, fromAir, probes }: AmbientOutcomes, airCelsius: number, units: UnitSystem): string {
  const read = probes.filter(({ atRest }) => atRest !== undefined).length;
  const within = spread === undefined ? '' : ` within ${uncertaintyText(spread, units)}`;
  const air = `the air of ${limitText(milliCelsius(airCelsius), units)}`;
  if (fromAir === undefined) return `no probe read; ${air}`;
  return `${read} ${read === 1 ? 'probe' : 'probes'}${within}, ${signedDifferenceText(fromAir, units)} from ${air}`;
}

/** The whole check in one line of the record. */
export function checkText(check: AmbientCheck, outcomes: AmbientOutcomes, units: UnitSystem): string {
  const wrong = outcomes.probes.filter(({ outcome }) => outcome !== 'in order');
  const found =
    wrong.length === 0
      ? `all ${outcomes.probes.length} in order`
      : listText(wrong.map((each) => `${each.probe} ${outcomeText(each, units)}`));
  return `Probes checked at ambient: ${found}. At rest ${restText(outcomes, check.airCelsius, units)}`;
}
