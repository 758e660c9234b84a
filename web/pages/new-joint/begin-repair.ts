/** A repair begun from the joint that it mends. */
import type { JointState } from '../../../server/screen/contract.ts';
import { findingText } from '../../../server/wording/finding.ts';
import type { JointDraft } from './draft.ts';
import { draftOf } from './draft-of.ts';

/** Steel, probes and procedure stand as in the joint, to be looked through; restraint and background are to be stated anew. */
export function repairDraft({ joint, assessment, repairs = [] }: JointState): JointDraft {
  const sent = assessment.findings.find(({ disposition }) => disposition?.decision === 'repair');
  const units = assessment.requirement.units;
  return {
    ...draftOf(joint),
    id: `${joint.id.slice(0, 56)}-r${repairs.length + 1}`,
    title: `Repair of ${joint.title}`.slice(0, 120),
    restraint: '',
    repair: {
      joint: joint.id,
      found: sent === undefined ? '' : findingText(sent, units).what,
      metal: '',
      cause: '',
      method: '',
      depth: '',
      length: '',
      examinedBy: 'MT',
      result: 'not examined yet',
      before: '',
      after: '',
      width: '',
    },
  };
}
