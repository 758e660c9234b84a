/** What is new between two assessments: recorded beside the inputs, so that a later judgement can be compared. */
import type { Alarm, Assessment, Finding, Phase, Verdict } from './assessment.ts';

export type Conclusion =
  | {
      readonly kind: 'finding';
      readonly change: 'opened' | 'closed' | 'decided' | 'withdrawn';
      readonly finding: Finding;
    }
  | { readonly kind: 'alarm'; readonly alarm: Alarm; readonly change: 'changed' | 'gone' }
  | { readonly kind: 'phase'; readonly phase: Phase }
  | { readonly kind: 'verdict'; readonly verdict: Verdict };

/** Decided: a person decided on it, or what was decided holds no longer. Withdrawn: later evidence told the same story better (three silences became one intermittent probe). */
export function conclusions(before: Assessment | undefined, now: Assessment): Conclusion[] {
  const list: Conclusion[] = [];
  const known = new Map((before?.findings ?? []).map((each) => [each.key, each]));
  for (const finding of now.findings) {
    const earlier = known.get(finding.key);
    if (earlier === undefined) list.push({ kind: 'finding', change: 'opened', finding });
    if (finding.to !== undefined && earlier?.to !== finding.to)
      list.push({ kind: 'finding', change: 'closed', finding });
    if (finding.disposition?.at !== earlier?.disposition?.at)
      list.push({ kind: 'finding', change: 'decided', finding });
    known.delete(finding.key);
  }
  for (const finding of known.values()) list.push({ kind: 'finding', change: 'withdrawn', finding });

  const alarms = new Map((before?.alarms ?? []).map((each) => [each.key, each]));
  for (const alarm of now.alarms) {
    const earlier = alarms.get(alarm.key);
    if (earlier === undefined || standingOf(earlier) !== standingOf(alarm))
      list.push({ kind: 'alarm', change: 'changed', alarm });
    alarms.delete(alarm.key);
  }
  for (const alarm of alarms.values()) list.push({ kind: 'alarm', change: 'gone', alarm });

  if (before?.phase !== now.phase) list.push({ kind: 'phase', phase: now.phase });
  if (now.phase === 'closed' && before?.phase !== 'closed') list.push({ kind: 'verdict', verdict: now.verdict });
  return list;
}

/** What makes another entry of it: that its value moves does not. */
const standingOf = ({ state, kind, announcedAt, suppressed, shelved }: Alarm): string =>
  [state, kind, announcedAt, suppressed, shelved?.at].join('/');
