/** Carbon equivalents and methods beside each other, short: value, standing, how well it is known. The terms stand in working-terms.ts. */

import type { UnitSystem } from '../../measure/units.ts';
import type { Equivalent, MethodAnswer, Requirement } from '../../metallurgy/answer.ts';
import { degrees } from '../../metallurgy/number.ts';
import { begun, listText } from '../../wording/list.ts';
import { type Block, paragraph } from '../page-model.ts';
import { groupedBy, merged } from './merged.ts';

export const equivalentTable = ({ equivalents }: Requirement): Extract<Block, { kind: 'table' }> => ({
  kind: 'table',
  caption: 'Carbon equivalents',
  columns: [
    { heading: 'Equivalent', share: 4 },
    { heading: 'Value', share: 10 },
    { heading: 'To be noted', share: 10 },
    { heading: 'Known', share: 3 },
  ],
  rows: groupedBy(equivalents, ({ id }) => id).map(([id, ...list]) => [
    id,
    list
      .map(({ part, value, missing }) =>
        value === undefined ? `${part}: none, not reported: ${missing.join(', ')}` : `${part}: ${value.toFixed(3)} %`,
      )
      .join('; '),
    [...new Set(list.flatMap(remarks))].join('; '),
    list[0]!.status,
  ]),
  empty: 'No carbon equivalent was computed.',
});

const remarks = ({ outOfRange, unchecked }: Equivalent): string[] => [
  ...outOfRange.map((text) => `outside its range: ${text}`),
  ...(unchecked.length === 0 ? [] : [`range not checked for ${listText(unchecked)}`]),
];

/** Whoever gives no number and may not govern stands in the sentence beneath the table. */
export const methodBlocks = ({ methods, units }: Requirement): Block[] => {
  const isSilent = ({ applicable, role }: MethodAnswer): boolean => applicable === 'no' && role === 'comparison only';
  const silent = merged(methods.filter(isSilent).map((one) => ({ ...one, inputs: [] })));
  return [
    {
      kind: 'table',
      caption: 'Methods beside each other',
      columns: [
        { heading: 'Method', share: 7 },
        { heading: 'Part', share: 3 },
        { heading: 'Result', share: 6 },
        { heading: 'Standing, and what to note', share: 11 },
        { heading: 'Known', share: 3 },
      ],
      rows: merged(methods.filter((one) => !isSilent(one))).map(({ one, parts }) => [
        `${one.title}, ${one.edition}`,
        listText(parts),
        methodResult(one, units),
        begun([one.standing, one.reason].filter((text) => text !== '').join('; ')),
        one.status,
      ]),
      empty: 'No method was applied.',
    },
    ...(silent.length === 0
      ? []
      : [
          paragraph(
            `No number, and none that could govern: ${silent
              .map(({ one, parts }) => `${one.title}, part ${listText(parts)} (${one.reason})`)
              .join('; ')}.`,
            'small',
          ),
        ]),
  ];
};

/** As computed, not rounded up. */
export const methodResult = (one: MethodAnswer, units: UnitSystem): string => {
  if (one.applicable === 'no') return 'no number';
  if (one.computedCelsius === undefined)
    return one.indication ?? (one.noPreheatNeeded ? 'no preheat needed' : 'no number');
  const figure = degrees(one.computedCelsius, units);
  return one.noPreheatNeeded ? `no preheat needed (${figure})` : figure;
};
