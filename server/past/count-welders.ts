/**
 * Passes by welder, in the order of names and never by rate: how often a limit was not kept hangs on the joints that somebody is given,
 * on heat and waiting that others see to, and on chance.
 */
import type { Card } from './card.ts';
import { type Share, shareOf } from './share.ts';

export interface WelderCount {
  readonly name: string;
  readonly joints: number;
  /** Passes with a limit not kept when they began or while they ran, of all. */
  readonly passes: Share;
}

export function countWelders(cards: readonly Card[]): WelderCount[] {
  const counts = new Map<string, { joints: Set<string>; against: number; passes: number }>();
  for (const { chain, passes, findings } of cards) {
    const against = new Set(
      findings.filter(({ severity }) => severity === 'nonconformity').map(({ pass }) => pass ?? ''),
    );
    for (const { pass, welder } of passes) {
      const count = counts.get(welder) ?? { joints: new Set(), against: 0, passes: 0 };
      count.joints.add(chain);
      count.passes += 1;
      if (against.has(pass)) count.against += 1;
      counts.set(welder, count);
    }
  }
  return [...counts]
    .map(([name, { joints, against, passes }]) => ({ name, joints: joints.size, passes: shareOf(against, passes) }))
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
}
