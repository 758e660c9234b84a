/** The joint that this one repairs, with the background of the repair, and the repairs of this joint. */
import { repairLines, repairText, unsettledText } from '../../wording/repair.ts';
import type { ReportFacts } from '../facts.ts';
import type { Section } from '../page-model.ts';

/** Nothing where there is neither. */
export function repairSection({ joint, repairs = [], assessment }: ReportFacts): Section[] {
  if (joint.repairOf === undefined && repairs.length === 0) return [];
  const unsettled = unsettledText(repairs);
  const rows: (readonly [string, string])[] = [
    ...(joint.repairOf === undefined
      ? []
      : repairLines(joint.repairOf, assessment.requirement.units).map(({ name, text }) => [name, text] as const)),
    ...repairs.map((each) => ['Repaired by', repairText(each)] as const),
    ...(unsettled === undefined ? [] : [['Verdict', unsettled] as const]),
  ];
  return [{ heading: 'Repair', blocks: [{ kind: 'pairs', rows }] }];
}
