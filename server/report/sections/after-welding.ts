/** Post-heating, cooling, heat treatment, the wait before testing and the spots of probes, as they were judged. */
import { afterLines } from '../../wording/after.ts';
import type { ReportFacts } from '../facts.ts';
import type { Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

/** Nothing where no arc was struck. */
export function afterWeldingSection({ assessment }: ReportFacts, times: Times): Section[] {
  const { after, passes, requirement } = assessment;
  if (passes.length === 0) return [];
  const rows =
    after === undefined
      ? [{ name: 'Welding complete', text: 'not entered' }]
      : [
          ...afterLines(after, requirement.units, times.when),
          ...(after.postHeating === undefined ? [{ name: 'Post-heating', text: 'not asked for' }] : []),
        ];
  return [
    {
      heading: 'After welding',
      blocks: [{ kind: 'pairs', rows: rows.map(({ name, text }) => [name, text] as const) }],
    },
  ];
}
