/** What stands beside the minimum on the working page: limits upward, cooling time, what comes after welding. */

import type { UnitSystem } from '../../measure/units.ts';
import type { Waiting } from '../../metallurgy/after-welding.ts';
import { citationText } from '../../metallurgy/citation.ts';
import type { CoolingOfPart } from '../../metallurgy/cooling.ts';
import { degrees, plain } from '../../metallurgy/number.ts';
import type { Span } from '../../metallurgy/span.ts';
import { rangeText, type UpperLimits } from '../../metallurgy/upper-limits.ts';
import { listText } from '../../wording/list.ts';
import type { Block } from '../page-model.ts';
import { merged } from './merged.ts';
import type { PaperFacts } from './paper-facts.ts';

export const besideMinimum = ({ explanation }: PaperFacts): Block => {
  const { upperLimits, cooling, afterWelding, requirement } = explanation;
  const { units } = requirement;
  const { postHeating, waiting, thickestMillimetres } = afterWelding;
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
      ...merged(cooling.parts).map(({ one, parts }) => [
        `Cooling time 800 to 500 °C, part ${listText(parts)}`,
        coolingText(one, units),
        [...one.flags, `${cooling.source} (${cooling.status}); shape factors ${cooling.shapeStatus}`].join('; '),
      ]),
      [
        'Post-heating',
        postHeating === undefined
          ? 'the procedure states none'
          : `${degrees(postHeating.celsius, units)}, ${plain(postHeating.hours)} h, as the procedure asks`,
        postHeating === undefined ? '' : postHeating.notes.join('; '),
      ],
      [`Wait before the last test, thickest part ${plain(thickestMillimetres)} mm`, ...waitingTexts(waiting)],
    ],
    empty: '',
  };
};

function upwardRows({ statedCelsius, parts }: UpperLimits, units: UnitSystem): string[][] {
  const suggested = merged(parts).flatMap(({ one, parts: names }) => [
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

function coolingText({ rows, reason, missing }: CoolingOfPart, units: UnitSystem): string {
  if (reason !== '') return reason;
  const times = rows.flatMap(({ celsius, found, allowed }) => {
    const at = `at ${degrees(celsius, units)}`;
    const window =
      found?.window === undefined ? '' : ` (${found.window === 'inside' ? 'inside the window' : found.window})`;
    const heat =
      allowed === undefined
        ? ''
        : `, ${plain(allowed.minimum, 2)} to ${plain(allowed.maximum, 2)} kJ/mm keep the window`;
    const none = allowed !== undefined && allowed.minimum > allowed.maximum ? ', no heat input keeps the window' : heat;
    return found === undefined ? [`${at}${none}`] : [`${spanText(found.seconds)} s ${at}${window}${none}`];
  });
  // The ends decide: the coldest and the hottest start of a run.
  const ends = times.length > 2 ? [times[0]!, times.at(-1)!] : times;
  return [...ends, ...missing.map((each) => `not known: ${each}`)].join('; ');
}

const spanText = ({ lowest, highest }: Span): string => {
  const [low, high] = [plain(lowest, 1), plain(highest, 1)];
  return low === high ? low : `${low} to ${high}`;
};

function waitingTexts(waiting: Waiting): [figure: string, note: string] {
  if (waiting.kind === 'not chosen') return ['no rule is chosen for this joint', ''];
  const source = `${waiting.edition}: ${citationText(waiting)}`;
  switch (waiting.kind) {
    case 'asks':
      return [`not known; needed: ${waiting.missing.join('; ')}`, source];
    case 'silent':
      return [`none given: ${waiting.because}`, source];
    case 'waits': {
      const hours = waiting.hours === 0 ? 'none beyond cooling' : `${plain(waiting.hours)} h from the end of welding`;
      return [`${hours} (${waiting.because})`, [source, ...waiting.notes].join('; ')];
    }
  }
}
