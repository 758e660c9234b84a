/**
 * Passes that began above the maximum interpass temperature, of those that could. The first pass of a joint has none to be judged;
 * left out are passes without a maximum in their procedure and passes whose interpass temperature was not judged.
 */
import type { Card } from './card.ts';
import { type Share, shareOf } from './share.ts';

export interface InterpassCount extends Share {
  readonly noMaximum: number;
  readonly notJudged: number;
}

export function countInterpass(cards: readonly Card[]): InterpassCount {
  let [above, of, noMaximum, notJudged] = [0, 0, 0, 0];
  for (const { passes, findings, hasInterpassMaximum } of cards) {
    for (const { pass } of passes.slice(1)) {
      const has = (kind: string): boolean => findings.some((each) => each.pass === pass && each.kind === kind);
      if (!hasInterpassMaximum) noMaximum += 1;
      else if (has('interpass not judged')) notJudged += 1;
      else {
        of += 1;
        if (has('interpass above maximum')) above += 1;
      }
    }
  }
  return { ...shareOf(above, of), noMaximum, notJudged };
}
