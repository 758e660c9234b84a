/** What stands beside the minimum on the working page: limits upward, cooling time, what comes after welding. */

import type { UnitSystem } from '../../measure/units.ts';
import type { Waiting } from '../../metallurgy/after-welding.ts';
import { citationText } from '../../metallurgy/citation.ts';
import type { CoolingOfPart } from '../../metallurgy/cooling.ts';
import { degrees, plain } from '../../metallurgy/number.ts';
import { apartFromPart, sharedByParts } from '../../metallurgy/shared-by-parts.ts';
import { rangeText, type UpperLimits } from '../../metallurgy/upper-limits.ts';
import { coolingText, heatInputWindowText, waitingText } from '../../wording/explanation.ts';
import { listText } from '../../wording/list.ts';
import type { Block } from '../page-model.ts';
import type { PaperFacts } from './paper-facts.ts';

export const besideMinimum = ({ explanation }: PaperFacts): Block => {
  const { upperLimits, cooling, afterWelding, requirement } = explanation;
  const { units } = requirement;
  const { postHeating, waiting } = afterWelding;
  return {
    kind: 'table',
    caption: 'Limits upward, cooling, after welding',
    columns: [
      { heading: 'Of', share: 5 },
      { heading: 'Figure', share: 9 },
      { heading: 'Source, and what to note', share: 13 },
    ],
    rows: [
      ...upwardRows(upperLimits, units),
      ...sharedByParts(cooling.parts, apartFromPart).map(({ one, parts }) => [
        `Cooling time 800 to 500 °C, part ${listText(parts)}`,
        coolingFigure(one, units),
        [...one.flags, `${cooling.source} (${cooling.status}); shape factors ${cooling.shapeStatus}`].join('; '),
      ]),
      [
        'Post-heating',
        postHeating === undefined
          ? 'the procedure states none'
          : `${degrees(postHeating.celsius, units)}, ${plain(postHeating.hours)} h, as the procedure asks`,
        postHeating === undefined ? '' : postHeating.notes.join('; '),
      ],
      ['Wait before the last test', waitingText(afterWelding, units), waitNotes(waiting)],
    ],
    empty: '',
  };
};

function upwardRows({ statedCelsius, parts }: UpperLimits, units: UnitSystem): string[][] {
  const suggested = sharedByParts(parts, apartFromPart).flatMap(({ one, parts: names }) => [
    ...one.suggestions.map((each) => [
      `Published maximum interpass, part ${listText(names)}`,
      `${rangeText(each.celsius, units)}, ${each.material}`,
      citationText(each),
    ]),
    ...(one.missing.length + one.notes.length === 0
      ? []
      : [
          [
            `To maximum interpass, part ${listText(names)}`,
            '',
            [...one.missing.map((each) => `not known: ${each}`), ...one.notes].join('; '),
          ],
        ]),
  ]);
  const stated =
    statedCelsius === undefined ? 'none stated; ask for it' : `${degrees(statedCelsius, units)}, as stated`;
  return [['Maximum interpass', stated, 'the procedure; it alone binds'], ...suggested];
}

/** The ends decide: the coldest and the hottest start of a run. */
function coolingFigure({ applicable, reason, rows, missing }: CoolingOfPart, units: UnitSystem): string {
  if (applicable === 'no') return reason;
  const told = rows.map((row) => {
    const heat = row.allowed === undefined ? '' : `; allowed ${heatInputWindowText(row.allowed, units)}`;
    return `at ${degrees(row.celsius, units)}: ${coolingText(row, units)}${heat}`;
  });
  const ends = told.length > 2 ? [told[0]!, told.at(-1)!] : told;
  return [...ends, ...missing.map((each) => `needed: ${each}`)].join('\n');
}

const waitNotes = (waiting: Waiting): string => {
  if (waiting.kind === 'not chosen') return '';
  return [citationText(waiting), ...(waiting.kind === 'waits' ? waiting.notes : [])].join('; ');
};
