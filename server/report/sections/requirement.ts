/** The requirement with its working: every equivalent, every method, each with formula, inputs, terms, flags and source. */
import type { UnitSystem } from '../../measure/units.ts';
import type { Equivalent, MethodAnswer, Requirement, WorkingInput } from '../../metallurgy/answer.ts';
import { apartFromPart, sharedByParts } from '../../metallurgy/shared-by-parts.ts';
import { begun, inside, wholeListText } from '../../wording/list.ts';
import { computedText, inOrderOfStanding, isSilent, methodResultText, minimumText } from '../../wording/requirement.ts';
import type { ReportFacts } from '../facts.ts';
import { plain } from '../joint-words.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';

export const requirementSection = ({ assessment }: ReportFacts): Section => {
  const { requirement } = assessment;
  return {
    heading: 'Requirement and its working',
    blocks: [
      paragraph(
        `Minimum preheat: ${minimumText(requirement)}. ${requirement.governing.because} ${computedText(requirement)}`.trim(),
      ),
      comparison(requirement),
      ...warningBlocks(requirement),
      equivalents(requirement.equivalents),
      ...sharedByParts(
        inOrderOfStanding(requirement.methods).filter((method) => !isSilent(method)),
        apartFromPart,
      ).flatMap(({ one, parts }) => methodBlocks(one, parts, requirement.units)),
    ],
  };
};

const comparison = ({ methods, units }: Requirement): Block => ({
  kind: 'table',
  caption: 'Methods beside each other',
  columns: [
    { heading: 'Method', share: 5 },
    { heading: 'Part', share: 3 },
    { heading: 'Result', share: 3 },
    { heading: 'May it govern', share: 7 },
  ],
  rows: sharedByParts(inOrderOfStanding(methods), (method) => ({
    method: `${method.title}, ${method.edition}`,
    result: resultText(method, units),
    governs: [role(method), begun(method.reason)].filter((text) => text !== '').join('. '),
  })).map(({ told: { method, result, governs }, parts }) => [method, wholeListText(parts), result, governs]),
  empty: 'No method was applied.',
});

const resultText = (method: MethodAnswer, units: UnitSystem): string =>
  method.indication === undefined ? methodResultText(method, units) : 'an indication, no temperature';

/** Whether it may govern, and by what standing. */
const role = ({ applicable, role: part, standing }: MethodAnswer): string => {
  if (part === 'comparison only') return `No, ${standing}`;
  if (part === 'code minimum') return 'Not alone, as a floor of the chosen code';
  return {
    yes: standing === 'may govern' ? 'Yes' : `Yes, ${standing}`,
    extended: 'Only once a named person accepts it',
    no: 'No',
  }[applicable];
};

const warningBlocks = ({ warnings }: Requirement): Block[] =>
  warnings.length === 0
    ? []
    : [
        { kind: 'subheading', text: 'Warnings' },
        {
          kind: 'list',
          items: warnings.map(
            ({ message, wantsAnswer }) => `${message}${wantsAnswer ? ' (wants an answer by a named person)' : ''}`,
          ),
        },
      ];

const equivalents = (list: readonly Equivalent[]): Block => ({
  kind: 'table',
  caption: 'Carbon equivalents',
  columns: [
    { heading: 'Equivalent', share: 3 },
    { heading: 'Part', share: 3 },
    { heading: 'Value', share: 2, align: 'right' },
    { heading: 'Formula and contents', share: 8 },
    { heading: 'Source', share: 4 },
  ],
  rows: sharedByParts(list, (each) => ({
    name: each.id === each.name ? each.id : `${each.id}, ${each.name}`,
    value: each.value === undefined ? 'no value' : `${each.value.toFixed(3)} %`,
    working: [each.formula, contents(each), ...remarks(each)].join('\n'),
    source: `${each.source} (${each.status})`,
  })).map(({ told: { name, value, working, source }, parts }) => [name, wholeListText(parts), value, working, source]),
  empty: 'No carbon equivalent was computed.',
});

const contents = ({ inputs }: Equivalent): string =>
  inputs.map(({ name, value, unit }) => `${name} ${plain(value)} ${unit}`.trimEnd()).join(', ');

const remarks = ({ missing, outOfRange, unchecked }: Equivalent): string[] => [
  ...(missing.length === 0 ? [] : [`Not reported: ${missing.join(', ')}`]),
  ...(outOfRange.length === 0 ? [] : [`Out of range, arithmetic only: ${outOfRange.join('; ')}`]),
  ...(unchecked.length === 0 ? [] : [`Range not checked for: ${unchecked.join(', ')}`]),
];

const methodBlocks = (method: MethodAnswer, parts: readonly string[], units: UnitSystem): Block[] => [
  {
    kind: 'subheading',
    text: `${method.title}, ${method.edition}, ${parts.length === 1 ? 'part' : 'parts'} ${wholeListText(parts)}`,
  },
  paragraph(
    [
      `May it govern: ${inside(role(method))}`,
      ...(method.reason === '' ? [] : [begun(method.reason)]),
      `Result: ${resultText(method, units)}.`,
    ].join('. '),
  ),
  paragraph(method.indication === undefined ? method.formula : `${begun(method.indication)}.`),
  ...(method.inputs.length === 0 ? [] : [inputs(method.inputs)]),
  ...(method.terms.length === 0 ? [] : [terms(method)]),
  ...(method.missing.length === 0
    ? []
    : [{ kind: 'list', items: method.missing.map((each) => `Missing: ${each}`) } as const]),
  ...told([...method.flags, ...(method.notes ?? [])]),
  paragraph(`Source: ${method.source} (${method.status})`, 'small'),
];

const told = (sentences: readonly string[]): Block[] =>
  sentences.length === 0 ? [] : [{ kind: 'list', items: sentences.map(begun) }];

const inputs = (list: readonly WorkingInput[]): Block => ({
  kind: 'table',
  caption: 'What went in',
  columns: [
    { heading: 'Quantity', share: 4 },
    { heading: 'Value', share: 3, align: 'right' },
    { heading: 'From', share: 8 },
  ],
  rows: list.map(({ name, value, unit, from }) => [name, `${plain(value)} ${unit}`.trimEnd(), from]),
  empty: '',
});

const terms = ({ terms: list, computedCelsius, tabulated }: MethodAnswer): Block => ({
  kind: 'table',
  caption: 'Term by term',
  columns: [
    { heading: 'Term', share: 4 },
    { heading: 'Formula', share: 8 },
    { heading: 'Value', share: 3, align: 'right' },
  ],
  rows: [
    ...list.map(({ name, formula, value, unit }) => [
      name,
      formula,
      `${plain(Math.round(value * 100) / 100)} ${unit}`.trimEnd(),
    ]),
    ...(computedCelsius === undefined
      ? []
      : [
          [
            tabulated ? 'Table' : 'Result',
            tabulated ? 'as it stands' : 'as computed, not rounded up',
            `${plain(Math.round(computedCelsius * 100) / 100)} °C`,
          ],
        ]),
  ],
  empty: '',
});
