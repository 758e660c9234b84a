/** Soak, heat on and off, and every pass with what was measured when it began and while it ran. */
import type { PassStatus } from '../../judgement/pass-status.ts';
import { rules } from '../../judgement/rules.ts';
import type { MilliCelsius } from '../../measure/quantity.ts';
import { handValueText } from '../../wording/instrument.ts';
import { soakText } from '../../wording/soak.ts';
import { differenceText } from '../../wording/temperature.ts';
import { durationText } from '../../wording/time.ts';
import { conditionName } from '../../wording/words.ts';
import type { ReportFacts } from '../facts.ts';
import { heatingText } from '../joint-words.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
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

export const passesSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Passes',
  blocks: [passTable(facts, times), paragraph(reading, 'small')],
});

const reading = `Minimum: every required place at or above the minimum preheat when the pass began and while it ran. Maximum: the interpass reading at or below its maximum when the pass began, taken at most ${durationText(rules.interpassReadingAge)} before the arc, or by hand at most ${durationText(rules.contactReadingAge)} before. Passes that began earlier than they were entered carry both times and are judged at the earlier.`;

const passTable = ({ assessment }: ReportFacts, times: Times): Block => {
  const { preheatMinimum, interpassMaximum } = assessment.limits;
  const temperature = (
    value: (Parameters<typeof handValueText>[0] & { readonly probe: string }) | undefined,
    limit: MilliCelsius | undefined,
  ): string =>
    value === undefined ? 'none' : `${handValueText(value, assessment.requirement.units, { limit })} ${value.probe}`;
  return {
    kind: 'table',
    caption: 'Each pass as judged',
    columns: [
      { heading: 'Pass', share: 4 },
      { heading: 'Welder, place', share: 7 },
      { heading: 'Arc', share: 6 },
      { heading: 'Coldest at start', share: 5 },
      { heading: 'Coldest during', share: 5 },
      { heading: 'Interpass at start', share: 5 },
      { heading: 'Hottest during', share: 5 },
      { heading: 'Minimum', share: 8 },
      { heading: 'Maximum', share: 4 },
    ],
    rows: assessment.passes.map((pass) => [
      `${pass.pass}\n${pass.passKind}`,
      placeOf(pass),
      arc(pass, times),
      temperature(pass.coldestAtStart, preheatMinimum),
      temperature(pass.coldestDuring, preheatMinimum),
      pass.interpass === undefined
        ? 'none'
        : `${handValueText(pass.interpass, assessment.requirement.units, { limit: interpassMaximum })} ${pass.interpass.probe}${pass.interpass.by === 'contact' ? ' (by hand)' : ''}`,
      temperature(pass.hottestDuring, interpassMaximum),
      [
        pass.minimum,
        ...(pass.outside.length === 0 ? [] : [`began outside: ${pass.outside.map(outside).join(', ')}`]),
      ].join('\n'),
      pass.maximum,
    ]),
    empty: 'No pass was entered.',
  };
};

const outside = (id: PassStatus['outside'][number]): string => conditionName(id).toLowerCase();

const placeOf = ({ welder, details: { side, where } }: PassStatus): string =>
  [welder, side === undefined ? undefined : `side ${side}`, where].filter((text) => text !== undefined).join('\n');

const arc = ({ startedAt, enteredAt, endedAt }: PassStatus, times: Times): string =>
  [
    times.when(startedAt),
    endedAt === undefined ? 'end not entered' : `to ${times.when(endedAt)}`,
    ...(enteredAt > startedAt ? [`entered ${times.when(enteredAt)}`] : []),
  ].join('\n');
