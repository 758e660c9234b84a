/** The requirement in words for a terminal: the answer first, then what to note, then the working. */
import type { UnitSystem } from '../measure/units.ts';
import type { Equivalent, MethodAnswer, Requirement, WorkingInput } from '../metallurgy/answer.ts';
import { plain } from '../metallurgy/number.ts';
import { sharedByParts } from '../metallurgy/shared-by-parts.ts';
import type { Joint } from '../weld/joint.ts';
import { cautions } from '../wording/cautions.ts';
import { listText } from '../wording/list.ts';
import { governingText, inOrderOfStanding, isSilent, methodResultText, minimumText } from '../wording/requirement.ts';

/** `beside`: titled lists of lines that stand between the methods and the cautions. */
export function requirementText(
  joint: Joint,
  answer: Requirement,
  beside: readonly (readonly [title: string, lines: readonly string[]])[],
): string {
  const { governing } = answer;
  return [
    `${joint.title} (${joint.id})`,
    '',
    `Required preheat: ${minimumText(answer)}, ${governingText(governing.kind)}`,
    `  ${governing.because}`,
    ...section('To be noted', answer.warnings.map(warningLine)),
    ...section('Carbon equivalents', merged(answer.equivalents, equivalentLines)),
    ...section(
      'Methods',
      merged(inOrderOfStanding(answer.methods), (one) => methodLines(one, answer.units)),
    ),
    ...beside.flatMap(([title, lines]) => section(title, lines)),
    ...section(
      'Cautions',
      cautions.slice(0, 2).map((caution) => `- ${caution}`),
    ),
  ].join('\n');
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];

const warningLine = ({ kind, message, wantsAnswer }: Requirement['warnings'][number]): string =>
  `- ${kind}: ${message}${wantsAnswer ? ' [wants a named answer]' : ''}`;

/** Parts that get the same lines share them. */
const merged = <Of extends { readonly part: string }>(all: readonly Of[], lines: (one: Of) => Lines): string[] =>
  sharedByParts(all, lines).flatMap(({ parts, told: { name, result, working } }) => [
    `${name}, ${listText(parts)}: ${result}`,
    ...working.map((line) => `  ${line}`),
  ]);

interface Lines {
  readonly name: string;
  readonly result: string;
  readonly working: readonly string[];
}

const equivalentLines = (one: Equivalent): Lines => ({
  name: one.id,
  result: one.value === undefined ? `not known; needed: ${one.missing.join(', ')}` : `${plain(one.value)} %`,
  working: [
    one.formula,
    ...inputLines(one.inputs),
    ...(one.outOfRange.length === 0 ? [] : [`outside: ${one.outOfRange.join(', ')} (${one.rangeOf})`]),
    `source: ${one.source} (${one.status})`,
  ],
});

const methodLines = (one: MethodAnswer, units: UnitSystem): Lines => ({
  name: one.title,
  result: resultText(one, units),
  working: isSilent(one)
    ? [`standing: ${one.standing}`]
    : [
        `standing: ${one.standing}`,
        one.formula,
        ...inputLines(one.inputs),
        ...one.terms.map((term) => `${term.formula} = ${quantity(term.value, term.unit, 4)} (${term.name})`),
        ...one.flags.map((flag) => `to be noted: ${flag}`),
        ...(one.notes ?? []).map((note) => `note: ${note}`),
        `source: ${one.source} (${one.status})`,
      ],
});

function resultText(one: MethodAnswer, units: UnitSystem): string {
  const result = methodResultText(one, units);
  if (one.applicable === 'no') return `${result}; ${one.reason}`;
  return one.applicable === 'extended' ? `${result}, beyond its validated range: ${one.reason}` : result;
}

/** Inputs of the same origin share a line. */
function inputLines(inputs: readonly WorkingInput[]): string[] {
  const byOrigin = new Map<string, string[]>();
  for (const { name, value, unit, from } of inputs) {
    const list = byOrigin.get(from) ?? [];
    list.push(`${name} ${quantity(value, unit, 5)}`);
    byOrigin.set(from, list);
  }
  return [...byOrigin].map(([from, list]) => `${list.join(', ')} (${from})`);
}

const quantity = (value: number, unit: string, decimals: number): string =>
  `${plain(value, decimals)} ${unit}`.trimEnd();
