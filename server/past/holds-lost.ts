/** How often a joint fell back before its first arc, as its recorded phases tell: from evening out to heating, or from ready to either. */
import type { Phase } from '../judgement/assessment.ts';
import type { Conclusion } from '../judgement/conclusions.ts';

const rank: { readonly [phase in Phase]?: number } = { heating: 1, equalising: 2, ready: 3 };

export function holdsLost(conclusions: readonly Conclusion[]): number {
  let before: number | undefined;
  let lost = 0;
  for (const said of conclusions) {
    if (said.kind !== 'phase') continue;
    const now = rank[said.phase];
    // Once an arc was struck no hold is being waited for.
    if (now === undefined && before !== undefined) return lost;
    if (now !== undefined && before !== undefined && now < before) lost += 1;
    before = now ?? before;
  }
  return lost;
}
