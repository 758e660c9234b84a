/**
 * All that is shown beside a required preheat: how fast the joint cools, what limits the temperature upward, what
 * comes after welding. Plain data, the same on the screen, on paper and on the command line.
 */
import type { Joint } from '../weld/joint.ts';
import { type AfterWelding, afterWelding } from './after-welding.ts';
import type { Acceptance, Requirement } from './answer.ts';
import { type CombinedThickness, combinedThickness } from './combined-thickness.ts';
import { type Cooling, cooling } from './cooling.ts';
import { type MartensiteStart, martensiteStart } from './martensite-start.ts';
import { requirement as requirementOf } from './requirement.ts';
import { type UpperLimits, upperLimits } from './upper-limits.ts';

export interface Explanation {
  readonly requirement: Requirement;
  /** For the charts that go by it. */
  readonly combinedThickness: CombinedThickness;
  /** Two formulas for each part; an indication. */
  readonly martensiteStart: readonly MartensiteStart[];
  /** From the minimum that governs up to the maximum interpass temperature. */
  readonly cooling: Cooling;
  readonly upperLimits: UpperLimits;
  readonly afterWelding: AfterWelding;
}

export function explain(joint: Joint, acceptances: readonly Acceptance[]): Explanation {
  const requirement = requirementOf(joint, acceptances);
  const minimum = requirement.governing.preheatMinimumCelsius;
  return {
    requirement,
    combinedThickness: combinedThickness(joint),
    martensiteStart: martensiteStart(joint),
    cooling: cooling(joint, minimum),
    upperLimits: upperLimits(joint, minimum),
    afterWelding: afterWelding(joint),
  };
}
