/** Breaks: how long, how cold, and what was asked for and done before going on. */
import { breakLines } from '../../wording/break.ts';
import type { ReportFacts } from '../facts.ts';
import type { Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

/** Nothing where none is known. */
export function breaksSection({ assessment }: ReportFacts, times: Times): Section[] {
  const { breaks, at, requirement } = assessment;
  if (breaks === undefined) return [];
  const rows = breakLines(breaks, at, requirement.units, times.when);
  return [
    { heading: 'Breaks', blocks: [{ kind: 'pairs', rows: rows.map(({ name, text }) => [name, text] as const) }] },
  ];
}
