/** Carbon equivalents and methods beside each other, short: value, standing, how well it is known. The terms stand in working-terms.ts. */

import type { Equivalent, Requirement } from '../../metallurgy/answer.ts';
import { sharedByParts } from '../../metallurgy/shared-by-parts.ts';
import { begun, listText } from '../../wording/list.ts';
import { inOrderOfStanding, isSilent, methodResultText } from '../../wording/requirement.ts';
import type { Block } from '../page-model.ts';
import { groupedBy } from './grouped-by.ts';

type Table = Extract<Block, { kind: 'table' }>;

export const equivalentTable = ({ equivalents }: Requirement): Table => ({
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

/** What each says, in a row; what has nothing to say stands with its reason on the page of terms. */
export const methodTable = ({ methods, units }: Requirement): Block => ({
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
    (one) => ({
      method: `${one.title}, ${one.edition}`,
      result: one.indication === undefined ? methodResultText(one, units) : 'an indication, on the page of terms',
      standing: begun([one.standing, one.reason].filter((text) => text !== '').join('; ')),
      known: one.status,
    }),
  ).map(({ told: { method, result, standing, known }, parts }) => [method, listText(parts), result, standing, known]),
  empty: 'No method was applied.',
});

export const silentMethods = ({ methods }: Requirement): Table => ({
  kind: 'table',
  caption: 'Without a number, and none that could govern',
  columns: [
    { heading: 'Method', share: 6 },
    { heading: 'Part', share: 4 },
    { heading: 'Why', share: 24 },
  ],
  rows: sharedByParts(methods.filter(isSilent), ({ title, reason }) => ({ title, reason })).map(
    ({ told: { title, reason }, parts }) => [title, listText(parts), begun(reason)],
  ),
  empty: '',
});
