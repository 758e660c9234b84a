/** What was decided on deviations, in words. An acceptance never reads as if a limit had been kept. */
import type { Finding } from '../judgement/assessment.ts';
import { type Deviations, type Disposition, deviationsOf } from '../judgement/people/deviations.ts';
import { listText } from './list.ts';

/** "1 open, 2 accepted"; empty where nothing needs an answer. */
export const deviationCountText = (deviations: Deviations): string =>
  listText(
    (['open', 'accepted', 'repair', 'rejected'] as const)
      .filter((state) => deviations[state].length > 0)
      .map((state) => `${deviations[state].length} ${stateWords[state]}`),
  );

/** The sentence that stands beside a verdict once anything was decided; empty before. */
export const deviationSentence = (findings: readonly Finding[]): string => {
  const deviations = deviationsOf(findings);
  const { accepted, repair, rejected } = deviations;
  if (accepted.length + repair.length + rejected.length === 0) return '';
  return ` Deviations: ${deviationCountText(deviations)}. A decision by a named person changes no measurement.`;
};

/** "Accepted by R. Ahlgren, coordinator". */
export const dispositionText = ({ decision, by, role }: Disposition): string =>
  `${decisionWords[decision]} by ${role === undefined ? by : `${by}, ${role}`}`;

export const decisionWords: { readonly [decision in Disposition['decision']]: string } = {
  accept: 'Accepted',
  repair: 'To be repaired',
  reject: 'Rejected',
};

const stateWords = { open: 'open', accepted: 'accepted', repair: 'to be repaired', rejected: 'rejected' } as const;
