/** Whether a decision on a deviation makes sense now: on a finding that stands, is over, and is as its writer saw it. */
import type { Assessment } from '../judgement/assessment.ts';
import { needsAnswer } from '../judgement/people/deviations.ts';
import type { Act } from '../weld/entry.ts';
import type { Problem } from '../weld/problems.ts';

export function dispositionProblems(act: Act & { kind: 'disposition' }, { findings }: Assessment): Problem[] {
  const wrong = (allowed: string): Problem[] => [{ field: 'act.finding', found: act.finding, allowed }];
  const finding = findings.find((each) => each.key === act.finding);
  if (finding === undefined) return wrong('a finding that stands; this one does not, or not any more');
  if (!needsAnswer(finding)) return wrong('a finding that needs an answer; this one is a remark');
  if (finding.to === undefined) return wrong('a finding that is over; this one still lasts, and its number may grow');
  if (finding.value === act.value) return [];
  const found = act.value === undefined ? 'no number' : `${act.value}`;
  const now = finding.value === undefined ? 'none' : `${finding.value}`;
  return [{ field: 'act.value', found, allowed: `the number that the finding has now: ${now}; look at it again` }];
}
