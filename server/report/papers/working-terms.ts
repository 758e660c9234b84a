/** The second page of the working: formula, steps and source of every equivalent and every method that was worked. */
import { plain } from '../../metallurgy/number.ts';
import { apartFromPart, sharedByParts } from '../../metallurgy/shared-by-parts.ts';
import { listText } from '../../wording/list.ts';
import { inOrderOfStanding, methodResultText } from '../../wording/requirement.ts';
import type { Block, Section } from '../page-model.ts';
import { groupedBy } from './grouped-by.ts';
import { equivalentTable, silentMethods } from './method-rows.ts';
import type { PaperFacts } from './paper-facts.ts';

export const workingTerms = ({ explanation: { requirement, cooling } }: PaperFacts): Section => ({
  heading: 'Terms of the working',
  newPage: true,
  blocks: [
    equivalentTable(requirement),
    {
      kind: 'table' as const,
      caption: 'Formulas of the carbon equivalents',
      columns: [
        { heading: 'Equivalent', share: 4 },
        { heading: 'Formula', share: 14 },
        { heading: 'Source', share: 8 },
      ],
      rows: groupedBy(requirement.equivalents, ({ id }) => id).map(([, one]) => [
        one!.id,
        one!.formula,
        `${one!.source} (${one!.status})`,
      ]),
      empty: 'No carbon equivalent was computed.',
    },
    terms('Terms of the methods', [
      ...sharedByParts(inOrderOfStanding(requirement.methods), apartFromPart)
        .filter(({ one }) => one.applicable !== 'no')
        .map(({ one, parts }) => [
          `${one.title}, ${listText(parts)}`,
          [
            one.formula,
            ...one.terms.map(({ name, formula, value, unit }) => `${name}: ${formula} = ${plain(value, 2)} ${unit}`),
            ...(one.notes ?? []).map((note) => `Note: ${note}`),
            ...one.flags.map((flag) => `Note: ${flag}`),
          ].join('\n'),
          methodResultText(one, requirement.units),
          `${one.source} (${one.status})`,
        ]),
    ]),
    silentMethods(requirement),
    terms('Terms of the cooling time, at the minimum preheat', [
      ...sharedByParts(cooling.parts, apartFromPart)
        .filter(({ one }) => one.terms.length > 0)
        .map(({ one, parts }) => [
          listText(parts),
          one.terms
            .map(({ name, formula, value, unit }) => `${name}: ${formula} = ${plain(value, 2)} ${unit}`)
            .join('\n'),
          '',
          `${cooling.source} (${cooling.status}); shape factors ${cooling.shapeStatus}`,
        ]),
    ]),
  ].filter((block) => block.rows.length > 0),
});

type Table = Block & { readonly kind: 'table' };

const terms = (caption: string, rows: readonly (readonly string[])[]): Table => ({
  kind: 'table',
  caption,
  columns: [
    { heading: 'Of', share: 6 },
    { heading: 'Formula and terms', share: 18 },
    { heading: 'Result', share: 4 },
    { heading: 'Source', share: 6 },
  ],
  rows,
  empty: '',
});
