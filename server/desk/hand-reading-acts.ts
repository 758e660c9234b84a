/** Whether a reading by hand makes sense at this joint: its part, the probe beside it, and the instrument as the register knows it. */
import type { Assessment } from '../judgement/assessment.ts';
import { limits } from '../measure/limits.ts';
import type { HandReadingAct } from '../weld/hand-reading.ts';
import { isHandKind } from '../weld/instrument.ts';
import type { Joint } from '../weld/joint.ts';
import type { Problem } from '../weld/problems.ts';

export function handReadingProblems(act: HandReadingAct, joint: Joint, { handReadings = 0 }: Assessment): Problem[] {
  const found: Problem[] = [];
  if (handReadings >= limits.handReadingsMaximum) {
    const allowed = `at most ${limits.handReadingsMaximum} in one joint; write down what is read further as a note`;
    found.push({ field: 'act', found: `${handReadings} readings by hand`, allowed });
  }
  return [...found, ...instrumentProblems(act, joint)];
}

/** An instrument that is not in the register is taken, and told as a finding. */
function instrumentProblems({ instrument, instrumentKind: kind, shows }: HandReadingAct, joint: Joint): Problem[] {
  const registered = joint.instruments?.find(({ id }) => id === instrument);
  if (registered === undefined) return [];
  if (!isHandKind(registered.kind)) {
    const byHand = (joint.instruments ?? []).filter((each) => isHandKind(each.kind)).map(({ id }) => id);
    const allowed = byHand.length === 0 ? 'one that is held on by hand' : `one held on by hand: ${byHand.join(', ')}`;
    return [{ field: 'act.instrument', found: `${instrument}, a ${registered.kind}`, allowed }];
  }
  if (kind !== undefined && kind !== registered.kind)
    return [
      { field: 'act.instrumentKind', found: kind, allowed: `${registered.kind}, as the register has ${instrument}` },
    ];
  return registered.kind === 'crayon' && shows === undefined
    ? [
        {
          field: 'act.shows',
          found: 'nothing',
          allowed: '"at least" where the crayon melted, "below" where it did not',
        },
      ]
    : [];
}
