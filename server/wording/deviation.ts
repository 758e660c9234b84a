/** What was decided on deviations, in words. An acceptance never reads as if a limit had been kept. */
import type { Finding } from '../judgement/assessment.ts';
import { type DeviationCounts, type Disposition, deviationCounts } from '../judgement/people/deviations.ts';
import { listText } from './list.ts';

/** "1 open, 2 accepted"; empty where nothing needs an answer. */
export const deviationCountText = (counts: DeviationCounts): string =>
  listText(
    (['open', 'accepted', 'repair', 'rejected'] as const)
      .filter((state) => counts[state] > 0)
      .map((state) => `${counts[state]} ${stateWords[state]}`),
  );

/** The sentence that stands beside a verdict once anything was decided; empty before. */
export const deviationSentence = (findings: readonly Finding[]): string => {
  const counts = deviationCounts(findings);
  if (counts.accepted + counts.repair + counts.rejected === 0) return '';
  return ` Deviations: ${deviationCountText(counts)}. A decision by a named person changes no measurement.`;
};

/** "Accepted by R. Ahlgren, coordinator". */
export const dispositionText = ({ decision, by, role }: Disposition): string =>
  `${decisionWords[decision]} by ${role === undefined ? by : `${by}, ${role}`}`;

const decisionWords: { readonly [decision in Disposition['decision']]: string } = {
  accept: 'Accepted',
  repair: 'To be repaired',
  reject: 'Rejected',
};

const stateWords = { open: 'open', accepted: 'accepted', repair: 'to be repaired', rejected: 'rejected' } as const;
