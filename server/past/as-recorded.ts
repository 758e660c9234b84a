/**
 * How a joint stands whose readings are not here: nothing is judged again. Verdict, findings and alarms are those that were recorded
 * when the readings were; the rest follows from the entries. What only readings could tell (temperatures, soak, what was kept in
 * a pass) means nothing in it and must not be shown.
 */
import type { Alarm, Assessment, Finding, Verdict } from '../judgement/assessment.ts';
import type { Conclusion } from '../judgement/conclusions.ts';
import { judgeAll } from '../judgement/judge.ts';
import type { Instant } from '../measure/quantity.ts';
import { arrival, type Input } from '../weld/entry.ts';

/** `inputs`: all that the entries hold, without a scan. */
export function asRecorded(inputs: readonly Input[], conclusions: readonly Conclusion[]): Assessment {
  const last = inputs.map(arrival).reduce((a, b) => Math.max(a, b) as Instant);
  const { assessment } = judgeAll(inputs, last);
  return {
    ...assessment,
    ...{ findings: standingFindings(conclusions), alarms: standingAlarms(conclusions), scope: [] },
    // A joint that was closed without one was not judged.
    verdict: recordedVerdict(conclusions) ?? 'cannot-be-judged',
  };
}

/** As they stood at last, without those that were withdrawn; oldest first. */
export function standingFindings(conclusions: readonly Conclusion[]): Finding[] {
  const standing = new Map<string, Finding>();
  for (const said of conclusions) {
    if (said.kind !== 'finding') continue;
    if (said.change === 'withdrawn') standing.delete(said.finding.key);
    else standing.set(said.finding.key, said.finding);
  }
  return [...standing.values()].sort((a, b) => a.from - b.from);
}

function standingAlarms(conclusions: readonly Conclusion[]): Alarm[] {
  const standing = new Map<string, Alarm>();
  for (const said of conclusions) {
    if (said.kind !== 'alarm') continue;
    if (said.change === 'gone') standing.delete(said.alarm.key);
    else standing.set(said.alarm.key, said.alarm);
  }
  return [...standing.values()];
}

export function recordedVerdict(conclusions: readonly Conclusion[]): Verdict | undefined {
  const said = conclusions.findLast((each) => each.kind === 'verdict');
  return said?.kind === 'verdict' ? said.verdict : undefined;
}
