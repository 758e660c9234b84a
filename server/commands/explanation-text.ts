/** What stands beside the requirement, in words for a terminal: a title and its lines each. */
import type { UnitSystem } from '../measure/units.ts';
import { citationText } from '../metallurgy/citation.ts';
import type { CoolingOfPart } from '../metallurgy/cooling.ts';
import { windowOverRows } from '../metallurgy/cooling-table.ts';
import type { Explanation } from '../metallurgy/explanation.ts';
import { degrees, plain } from '../metallurgy/number.ts';
import { sharedByParts } from '../metallurgy/shared-by-parts.ts';
import type { Sensitivity } from '../metallurgy/what-if.ts';
import {
  coolingText,
  heatInputWindowText,
  interpassSuggestionText,
  martensiteText,
  residualText,
  sensitivityText,
  waitingText,
} from '../wording/explanation.ts';
import { heatInputFigureText } from '../wording/length.ts';

type Beside = Omit<Explanation, 'requirement'>;
type Titled = readonly [title: string, lines: readonly string[]];

export const explanationText = (
  beside: Beside,
  matters: readonly Sensitivity[],
  units: UnitSystem,
): readonly Titled[] => [
  ['Cooling', coolingLines(beside, units)],
  ['Upper limits', upperLines(beside, units)],
  ['After welding', afterLines(beside, units)],
  ['What matters most', mattersLines(matters, units)],
];

function coolingLines({ cooling }: Beside, units: UnitSystem): string[] {
  const { parts, arcEnergy, source, status, shapeStatus } = cooling;
  const energy =
    arcEnergy === undefined
      ? []
      : [`arc energy without k: ${heatInputFigureText(arcEnergy.value, units)} (${arcEnergy.from})`];
  const ofParts = parts.map((one) => ({ part: one.part, lines: coolingOfPart(one, units) }));
  return [...energy, ...merged(ofParts), `source: ${source} (${status}; shape factors ${shapeStatus})`];
}

function coolingOfPart({ applicable, reason, missing, flags, rows }: CoolingOfPart, units: UnitSystem): string[] {
  if (applicable === 'no') return [`no cooling time; ${reason}`];
  const whole = windowOverRows(rows);
  return [
    ...rows.map((row) => {
      const allowed = row.allowed === undefined ? '' : `; allowed ${heatInputWindowText(row.allowed, units)}`;
      return `from ${degrees(row.celsius, units)} (${row.at}): ${coolingText(row, units)}${allowed}`;
    }),
    ...(whole === undefined ? [] : [`over all of these temperatures: ${heatInputWindowText(whole, units)}`]),
    ...missing.map((one) => `needed: ${one}`),
    ...flags.map((one) => `to be noted: ${one}`),
  ];
}

function upperLines({ upperLimits, martensiteStart }: Beside, units: UnitSystem): string[] {
  const stated = upperLimits.statedCelsius;
  return [
    stated === undefined
      ? 'the procedure states no maximum interpass temperature; what follows is published or practised, and is not applied'
      : `the procedure's maximum interpass temperature is ${degrees(stated, units)}; what follows is for comparison`,
    ...merged(
      upperLimits.parts.map(({ part, suggestions, missing, notes }) => ({
        part,
        lines: [
          ...suggestions.map((one) => interpassSuggestionText(one, units)),
          ...missing.map((one) => `needed: ${one}`),
          ...notes.map((one) => `to be noted: ${one}`),
        ],
      })),
    ),
    ...merged(
      martensiteStart.map((one) => ({
        part: one.part,
        lines: [`martensite start, ${one.name}: ${martensiteText(one, units)}; an indication, ${one.status}`],
      })),
    ),
  ];
}

function afterLines({ afterWelding }: Beside, units: UnitSystem): string[] {
  const { postHeating, published, waiting } = afterWelding;
  const heated =
    postHeating === undefined
      ? ['the procedure states no post-heating']
      : [
          `post-heating by the procedure: ${degrees(postHeating.celsius, units)}, ${plain(postHeating.hours)} h`,
          ...(postHeating.residual === undefined ? [] : [`  ${residualText(postHeating.residual)}`]),
          ...postHeating.notes.map((one) => `  to be noted: ${one}`),
        ];
  const waited = waiting.kind !== 'waits' ? [] : waiting.notes.map((one) => `  to be noted: ${one}`);
  const choices = waiting.kind !== 'not chosen' ? [] : waiting.choices.map((one) => `  ${one.edition}: ${one.words}`);
  return [
    ...heated,
    'published on post-heating:',
    ...published.map((one) => `  ${one.for}: ${one.words}; ${citationText(one)}`),
    waitingText(afterWelding, units),
    ...waited,
    ...choices,
    ...(waiting.kind === 'not chosen' ? [] : [`  source: ${citationText(waiting)}`]),
  ];
}

/** The methods that may govern, in the order of what they answer to most strongly. */
function mattersLines(matters: readonly Sensitivity[], units: UnitSystem): string[] {
  const governing = matters.filter(({ role }) => role === 'may govern');
  return merged(governing.map((one) => ({ part: one.part, lines: [`${sensitivityText(one, units)} (${one.title})`] })));
}

/** Parts that get the same lines share them. */
const merged = (all: readonly { readonly part: string; readonly lines: readonly string[] }[]): string[] =>
  sharedByParts(all, ({ lines }) => lines).flatMap(({ parts, told }) =>
    told.map((line) => `${parts.join(', ')}: ${line}`),
  );
