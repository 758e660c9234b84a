/** Findings about what is measured with, in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { Millikelvin } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { FindingWords } from './finding.ts';
import { signedDifferenceText, uncertaintyText } from './instrument.ts';
import { begun } from './list.ts';

export type InstrumentFindingKind = Extract<
  FindingKind,
  | 'calibration overdue'
  | 'calibration not known'
  | 'verification failed'
  | 'calibration not shown'
  | 'twin reading apart'
>;

export const instrumentFindingText = (
  kind: InstrumentFindingKind,
  finding: Finding,
  units: UnitSystem,
): FindingWords => {
  const probe = finding.probe ?? 'a probe';
  const instrument = finding.instrument ?? 'an instrument';
  const start = finding.pass === undefined ? 'when a pass began' : `when pass ${finding.pass} began`;
  switch (kind) {
    case 'calibration overdue':
      return {
        what: `Calibration of ${instrument} is overdue`,
        why: 'What its certificate says was stated up to a day that has passed; what it reads now is not shown by anybody.',
        first: 'Have it calibrated and enter the certificate; it counts from the time that is entered with it.',
      };
    case 'calibration not known':
      return {
        what: `No calibration is entered for ${finding.instrument ?? `the wire of ${probe}`}`,
        why: 'How far it is off is not known, so that its widest ordinary tolerance is taken.',
        first: 'Find its certificate and enter it, or name the wire lot of the probe in the joint.',
      };
    case 'verification failed':
      return {
        what: `${begun(instrument)} was found outside its limit`,
        why: 'What it read before may be as wrong as what it reads now.',
        first: 'Have it calibrated, or replace it; a calibration says how far it was off.',
      };
    case 'calibration not shown':
      return {
        what: `Calibration not shown ${start}: ${instrument}`,
        why: 'The procedure requires calibrated instruments for a pass to be judged.',
        first: 'Enter its certificate with the time from which it holds; what was measured is then judged anew.',
      };
    case 'twin reading apart':
      return {
        what: `By hand beside ${probe}${apart(finding, units)}`,
        why: 'Two readings of one place lie further apart than both together are uncertain: one of them reads something else than the part.',
        first: `Read again beside ${probe} with another instrument, look at the contact of its tip, and take the probe out of the judgement if it is wrong.`,
      };
  }
};

const apart = ({ value, limit, instrument }: Finding, units: UnitSystem): string => {
  const by = instrument === undefined ? '' : ` with ${instrument}`;
  if (value === undefined) return `${by}: another temperature`;
  const most = limit === undefined ? '' : `, at most \u00B1${uncertaintyText(limit, units)} together`;
  return `${by}: ${signedDifferenceText(value as Millikelvin, units)}${most}`;
};
