/** What was decided on a deviation, by whom and when: of a job kept from its logs when it was written, not when the log ended. */
import type { Finding } from '../judgement/assessment.ts';
import { dispositionText } from '../wording/deviation.ts';
import type { ReportFacts } from './facts.ts';
import type { Times } from './paper.ts';

/** Empty where nothing was decided. */
export function decidedText(
  { key, disposition }: Finding,
  { timeline }: Pick<ReportFacts, 'timeline'>,
  times: Times,
): string {
  if (disposition === undefined) return '';
  const entry = timeline.findLast(
    ({ input }) => input.type === 'act' && input.act.kind === 'disposition' && input.act.finding === key,
  );
  const when = entry?.kept === undefined ? times.when(disposition.at) : times.full(entry.kept.at);
  return `${dispositionText(disposition)}, ${when}`;
}
