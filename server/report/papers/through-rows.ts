/** The minimum through the thickness as a paper says it, beside the rule by time; nothing where the procedure does not ask for it. */
import { minutes } from '../../measure/quantity.ts';
import type { Joint } from '../../weld/joint.ts';
import { throughAskedText } from '../../wording/soak.ts';

export const throughRows = ({ procedure }: Joint): (readonly [string, string])[] => {
  const hold = procedure?.throughThicknessHoldMinutes;
  return hold === undefined ? [] : [['Through the thickness', throughAskedText(minutes(hold))]];
};
