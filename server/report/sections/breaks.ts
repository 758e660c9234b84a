/** Breaks: how long, how cold, and what was asked for and done before going on. */
import { breakLines } from '../../wording/break.ts';
import type { ReportFacts } from '../facts.ts';
import { paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

/** Nothing where nothing was welded. */
export function breaksSection({ assessment }: ReportFacts, times: Times): Section[] {
  const { breaks, passes, at, requirement } = assessment;
  if (breaks === undefined)
    return passes.length === 0 ? [] : [{ heading: 'Breaks', blocks: [paragraph('No break in welding is known.')] }];
  const rows = breakLines(breaks, at, requirement.units, times.when);
  return [
    { heading: 'Breaks', blocks: [{ kind: 'pairs', rows: rows.map(({ name, text }) => [name, text] as const) }] },
  ];
}
