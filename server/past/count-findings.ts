/** Which findings came how often: in all, and in how many joints. The most frequent first. */
import type { Severity } from '../judgement/assessment.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { Card } from './card.ts';

export interface FindingCount {
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly times: number;
  readonly joints: number;
}

export function countFindings(cards: readonly Card[]): FindingCount[] {
  const counts = new Map<FindingKind, { severity: Severity; times: number; joints: Set<string> }>();
  for (const { chain, findings } of cards) {
    for (const { kind, severity } of findings) {
      const count = counts.get(kind) ?? { severity, times: 0, joints: new Set() };
      count.times += 1;
      count.joints.add(chain);
      counts.set(kind, count);
    }
  }
  return [...counts]
    .map(([kind, { severity, times, joints }]) => ({ kind, severity, times, joints: joints.size }))
    .sort((a, b) => b.joints - a.joints || b.times - a.times || (a.kind < b.kind ? -1 : 1));
}
