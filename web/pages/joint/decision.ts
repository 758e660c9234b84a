/** What may be decided on a deviation, and the act that says so of a finding as it stands on this screen. */
import type { Finding } from '../../../server/judgement/assessment.ts';
import type { DispositionAct } from '../../../server/weld/entry.ts';

export type Decision = DispositionAct['decision'];

export const decisions: readonly { readonly decision: Decision; readonly text: string }[] = [
  { decision: 'accept', text: 'Accept as it is' },
  { decision: 'repair', text: 'Repair' },
  { decision: 'reject', text: 'Reject' },
];

export const dispositionOf = ({ key, value }: Finding, decision: Decision, reason: string): DispositionAct => ({
  kind: 'disposition',
  finding: key,
  decision,
  ...(value === undefined ? {} : { value }),
  reason,
});
