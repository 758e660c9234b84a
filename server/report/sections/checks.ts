/** Checks before welding and points of inspection, as they were answered and released. */
import { checkLines } from '../../wording/checks.ts';
import type { ReportFacts } from '../facts.ts';
import type { Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

/** Nothing where the procedure asks for none. */
export function checksSection({ assessment: { checks = [], points = [] } }: ReportFacts, times: Times): Section[] {
  if (checks.length + points.length === 0) return [];
  const rows = checkLines(checks, points, times.when);
  return [
    {
      heading: 'Checks before welding',
      blocks: [{ kind: 'pairs', rows: rows.map(({ name, text }) => [name, text] as const) }],
    },
  ];
}
