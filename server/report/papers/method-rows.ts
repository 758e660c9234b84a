/** Carbon equivalents and methods beside each other, short: value, standing, how well it is known. The terms stand in working-terms.ts. */

import type { Equivalent, Requirement } from '../../metallurgy/answer.ts';
import { apartFromPart, sharedByParts } from '../../metallurgy/shared-by-parts.ts';
import { begun, listText } from '../../wording/list.ts';
import { inOrderOfStanding, isSilent, methodResultText } from '../../wording/requirement.ts';
import { type Block, paragraph } from '../page-model.ts';
import { groupedBy } from './grouped-by.ts';

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
  const silent = sharedByParts(methods.filter(isSilent), ({ id, reason }) => ({ id, reason }));
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
      rows: sharedByParts(
        inOrderOfStanding(methods).filter((one) => !isSilent(one)),
        apartFromPart,
      ).map(({ one, parts }) => [
        `${one.title}, ${one.edition}`,
        listText(parts),
        methodResultText(one, units),
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
