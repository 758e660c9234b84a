/** What is found of the check at ambient, in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { Millikelvin } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { outcomeAdvice, outcomeText } from './ambient.ts';
import type { FindingWords } from './finding.ts';
import { signedDifferenceText } from './instrument.ts';

export type AmbientFindingKind = Extract<Finding['kind'], `ambient check ${string}`>;

/** `when`: at which probe and at the start of which pass. */
export function ambientFindingText(
  finding: Finding,
  kind: AmbientFindingKind,
  when: string,
  units: UnitSystem,
): FindingWords {
  switch (kind) {
    case 'ambient check not made':
      return {
        what: `${finding.probe === undefined ? 'The probes were' : `${finding.probe} was`} not checked at ambient before heating`,
        why: 'Crossed wires, changed places and a wrong type all read rightly while everything is cold, and wrongly once it is hot.',
        first:
          'When the part is cold again, touch each tip in turn and record the check. Until then, take contact readings beside the probes.',
      };
    case 'ambient check failed':
      return failedText(finding, units);
    case 'ambient check not shown':
      return {
        what: `Check at ambient not shown${when}`,
        why: 'The procedure requires that all probes are checked before heating for a pass to be judged.',
        first: 'Mend what the check found, let the part cool, and check again.',
      };
  }
}

function failedText({ probe, outcome, against: other, value }: Finding, units: UnitSystem): FindingWords {
  if (probe === undefined || outcome === undefined || outcome === 'in order') {
    const by = value === undefined ? '' : `: ${signedDifferenceText(value as Millikelvin, units)}`;
    return {
      what: `At ambient all probes together lay too far from the air${by}`,
      why: 'A wrong temperature of the terminals or a wrong type shifts all probes alike. A part that came in from outdoors does too.',
      first: 'Compare the part with a contact thermometer; let the board and the part come to the same temperature.',
    };
  }
  const apart = value === undefined ? {} : { apart: value as Millikelvin };
  return {
    what: `Check at ambient: ${probe} ${outcomeText({ outcome, ...(other === undefined ? {} : { other }), ...apart }, units)}`,
    why: 'What it reads when the part is hot may be of another place, or wrong.',
    first: outcomeAdvice[outcome],
  };
}
