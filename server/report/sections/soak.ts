/** Soak, and heat on and off as entered. */
import { soakText } from '../../wording/soak.ts';
import { differenceText } from '../../wording/temperature.ts';
import { durationText } from '../../wording/time.ts';
import type { ReportFacts } from '../facts.ts';
import { heatingText } from '../joint-words.ts';
import type { Block, Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const soakSection = (facts: ReportFacts, times: Times): Section => {
  const { soak, minimumFirstReachedAt, spread } = facts.assessment;
  const rows: [string, string][] = [
    ['Rule', soakRules[soak.rule]],
    ['Heated', heatingText(facts.joint)],
    [
      'Minimum first reached at every required place',
      minimumFirstReachedAt === undefined ? 'never' : times.full(minimumFirstReachedAt),
    ],
  ];
  if (soak.required !== undefined) rows.push(['Time asked for', durationText(soak.required)]);
  if (soak.since !== undefined) rows.push(['Counted from', times.full(soak.since)]);
  if (soak.done !== undefined) rows.push(['Time done', durationText(soak.done)]);
  if (soak.doneAt !== undefined) rows.push(['Done at', times.full(soak.doneAt)]);
  rows.push(['State at the end', soakText(soak)]);
  for (const { face, spread: kelvin } of spread) {
    rows.push([
      `Spread of the zone probes, ${face} face, at the end`,
      differenceText(kelvin, facts.assessment.requirement.units, { limit: facts.assessment.limits.evennessMaximum }),
    ]);
  }
  return { heading: 'Soak and heat', blocks: [{ kind: 'pairs', rows }, heatTable(facts, times)] };
};

const soakRules = {
  opposite: 'measured on the face opposite the heat: no wait is asked for',
  wait: 'measured on the heated face: heat off, then 2 min for each 25 mm of the thickest part (practice of ISO 13916)',
  hold: 'heaters stay on: the hold that the procedure states',
  'through thickness': 'no hold by time is stated: the minimum through the thickness is asked for',
  none: 'none can be applied: the heaters stay on and the procedure states no hold',
} as const;

const heatTable = ({ timeline }: ReportFacts, times: Times): Block => ({
  kind: 'table',
  caption: 'Heat as entered',
  columns: [
    { heading: 'Heat', share: 2 },
    { heading: 'From', share: 4 },
    { heading: 'Entered', share: 4 },
    { heading: 'By', share: 6 },
  ],
  rows: timeline.flatMap(({ input }) =>
    input.type === 'act' && input.act.kind === 'heat'
      ? [
          [
            input.act.state,
            times.when((input.act.happenedAt ?? input.at) as typeof input.at),
            times.when(input.at),
            named(input),
          ],
        ]
      : [],
  ),
  empty: 'Neither heat on nor heat off was entered.',
});

const named = ({ who, role }: { readonly who: string; readonly role?: string }): string =>
  role === undefined ? who : `${who}, ${role}`;
