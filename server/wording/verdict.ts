/**
 * The verdict in plain words. It speaks of temperatures against stated limits, of nothing else, and names
 * first what stands against it.
 */
import type { Assessment, Finding } from '../judgement/assessment.ts';
import { deviationSentence } from './deviation.ts';
import { findingText } from './finding.ts';
import { inside, listText } from './list.ts';

/** What was found, how far it reaches, and what named persons decided on it. */
export const verdictText = (assessment: Assessment): string =>
  `${measuredText(assessment)}${deviationSentence(assessment.findings)}`;

const measuredText = (assessment: Assessment): string => {
  switch (assessment.verdict) {
    case 'complies':
      return `Complies: every temperature limit that was judged was kept${ofPasses(assessment)}. This says nothing about the weld itself.`;
    case 'does-not-comply': {
      const against = assessment.findings.filter(({ severity }) => severity === 'nonconformity');
      return `Does not comply: ${counted(against, 'a limit was not kept', assessment)}.`;
    }
    case 'cannot-be-judged': {
      const open = assessment.findings.filter(({ severity }) => severity === 'not judged');
      if (open.length > 0)
        return `Cannot be judged: ${counted(open, 'something needed is missing', assessment)}. This is not a pass.`;
      return assessment.passes.length === 0
        ? 'Cannot be judged: no pass was entered. This is not a pass.'
        : 'Cannot be judged: something needed is missing. This is not a pass.';
    }
  }
};

/** "judged: minimum at each pass, soak and passes" from the judge's own list. */
export const scopeText = ({ scope }: Assessment, list = listText): string =>
  scope.length === 0 ? 'Nothing was judged.' : `Judged: ${list(scope)}.`;

const ofPasses = ({ passes }: Assessment): string => {
  if (passes.length === 0) return '';
  return passes.length === 1 ? ', over 1 pass' : `, over ${passes.length} passes`;
};

const counted = (findings: readonly Finding[], otherwise: string, { requirement }: Assessment): string => {
  const [first, ...others] = findings;
  if (first === undefined) return otherwise;
  const { what } = findingText(first, requirement.units);
  const words = first.probe !== undefined && what.startsWith(first.probe) ? what : inside(what);
  if (others.length === 0) return words;
  return `${words}; and ${others.length} more ${others.length === 1 ? 'finding' : 'findings'}`;
};
