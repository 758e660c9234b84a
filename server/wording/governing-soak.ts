/** Where a time by rule and the computed core both count: which of the two came last, by how much, and why. */
import type { Assessment } from '../judgement/assessment.ts';
import type { SoakStatus } from '../judgement/soak-status.ts';
import type { Milliseconds } from '../measure/quantity.ts';
import { lengthText } from './length.ts';
import { begun } from './list.ts';
import { durationText } from './time.ts';

/**
 * A sentence or two. Undefined where only one of the two is asked for, or neither has come far enough to tell. What
 * was done once counts, also after it was lost: a closed joint has cooled.
 */
export const governingSoakText = (assessment: Assessment): string | undefined => {
  const { soak, throughThickness: through } = assessment;
  if (!through.asked || (soak.rule !== 'wait' && soak.rule !== 'hold')) return undefined;
  const rule = names[soak.rule];
  const soakAt = soak.firstDoneAt ?? soak.doneAt;
  const coreAt = through.firstDoneAt ?? through.doneAt;
  if (soakAt !== undefined && coreAt !== undefined) {
    const apart = coreAt - soakAt;
    if (Math.abs(apart) < 1000) return `The core and ${rule} were done together.`;
    const time = durationText(Math.abs(apart) as Milliseconds);
    return apart > 0
      ? `The core governed: it was ${warm(assessment)} ${time} after ${rule} had ended. ${because[soak.rule]}`
      : `${begun(rule)} governed: it ended ${time} after the core was ${warm(assessment)}. Heat went through ${wallText(assessment)} sooner than it allows.`;
  }
  if (soakAt !== undefined) return `${begun(rule)} has ended, but ${coreText(assessment)}`;
  if (coreAt !== undefined) return `${begun(rule)} governs: the core is ${warm(assessment)}, but it has not ended.`;
  return undefined;
};

const names = { wait: 'the wait by thickness', hold: 'the hold by time' } as const;

const squared =
  'Heat needs a time that grows with the square of the thickness, and more where the far face loses heat:';
const because: Readonly<Record<'wait' | 'hold', string>> = {
  wait: `${squared} a wait that grows with the thickness alone does not see that.`,
  hold: `${squared} a fixed time does not see that.`,
} satisfies Partial<Record<SoakStatus['rule'], string>>;

const warm = ({ throughThickness: { required } }: Assessment): string =>
  required === 0 ? 'warm through' : 'warm through and held';

/** Why the core is not done, the rule by time being so. */
const coreText = (assessment: Assessment): string => {
  switch (assessment.throughThickness.state) {
    case 'not judged':
      return 'whether heat is through is not judged.';
    case 'running':
    case 'paused':
      return 'the core is not held as long as the procedure asks. The core governs.';
    default:
      return `${wallText(assessment)} is not warm through. The core governs.`;
  }
};

/** The part that holds it up, else the thickest: "plate A, 80 mm,". */
const wallText = ({ sections, throughThickness, requirement }: Assessment): string => {
  const thickest = sections.toSorted((a, b) => b.depthMillimetres - a.depthMillimetres)[0];
  const section = sections.find(({ part }) => part === throughThickness.worst) ?? thickest;
  return section === undefined
    ? 'the joint'
    : `${section.part}, ${lengthText(section.depthMillimetres, requirement.units)},`;
};
