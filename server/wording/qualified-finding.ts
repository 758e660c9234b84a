/** Findings against the test piece that qualifies the procedure, in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { FindingOfQualification } from '../judgement/qualified.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { FindingWords } from './finding.ts';
import { capped, only, reached } from './finding-numbers.ts';

export const qualifiedFindingText = (
  kind: FindingOfQualification,
  finding: Finding,
  where: string,
  units: UnitSystem,
): FindingWords => {
  switch (kind) {
    case 'below qualified preheat':
      return {
        what: `Below the qualified range of preheat${where}${reached(finding, units)}`,
        why: 'The test piece of the procedure shows nothing of a weld made as cold as this.',
        first: `Tell the coordinator: the weld is not covered by this qualification. ${checkCopy}`,
      };
    case 'interpass above qualified':
      return {
        what: `Above the qualified range of the interpass temperature${where}${capped(finding, units)}`,
        why: 'The test piece shows neither strength nor toughness of a weld made as hot as this.',
        first: `Tell the coordinator: the weld is not covered by this qualification. ${checkCopy}`,
      };
    case 'qualified interpass open':
      return {
        what: `Whether the interpass temperature is qualified is open${where}${capped(finding, units)}`,
        why: 'Above this it hangs on a fact that the qualification record here does not state: whether impact tests are required (ASME IX), or whether the standard lets it rise for this material group (ISO 15614-1).',
        first: 'Have the coordinator state it in a new revision of the procedure, and change the joint over to it.',
      };
    case 'qualified range not judged':
      return {
        what: `Qualified range not judged${where}${only(finding, units)}`,
        why: 'What was read proves neither that the weld lies within the range of the test piece nor that it lies outside.',
        first: 'Measure the place again, by hand if need be, before the next pass.',
      };
  }
};

/** The limits of departure are known here second-hand at best. */
const checkCopy = 'The limits of departure are known here second-hand: check them in your copy of the standard.';
