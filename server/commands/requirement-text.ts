/** The requirement in words for a terminal: the answer first, then what to note, then the working. */
import type { UnitSystem } from '../measure/units.ts';
import type { Equivalent, MethodAnswer, Requirement, WorkingInput } from '../metallurgy/answer.ts';
import { degrees, plain } from '../metallurgy/number.ts';
import type { Joint } from '../weld/joint.ts';
import { cautions } from '../wording/cautions.ts';
import { listText } from '../wording/list.ts';
import { governingText, minimumText } from '../wording/requirement.ts';

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

/** What may govern first, then the floors of a code, then what only compares: with a number before without one. */
const inOrderOfStanding = (methods: readonly MethodAnswer[]): readonly MethodAnswer[] =>
  [...methods].sort((a, b) => rank(a) - rank(b));

const rank = ({ role, computedCelsius, indication }: MethodAnswer): number => {
  const bySort = { 'may govern': 0, 'code minimum': 2, 'comparison only': 4 }[role];
  return computedCelsius === undefined && indication === undefined ? bySort + 1 : bySort;
};

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];

const warningLine = ({ kind, message, wantsAnswer }: Requirement['warnings'][number]): string =>
  `- ${kind}: ${message}${wantsAnswer ? ' [wants a named answer]' : ''}`;

/** Parts that get the same lines share them. */
function merged<Of extends { readonly part: string }>(all: readonly Of[], lines: (one: Of) => Lines): string[] {
  const groups = new Map<string, { parts: string[]; lines: Lines }>();
  for (const one of all) {
    const made = lines(one);
    const key = JSON.stringify(made);
    const group = groups.get(key) ?? { parts: [], lines: made };
    group.parts.push(one.part);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ parts, lines: { name, result, working } }) => [
    `${name}, ${listText(parts)}: ${result}`,
    ...working.map((line) => `  ${line}`),
  ]);
}

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
  result: methodResult(one, units),
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

/** Nothing of it can count here: its reason is enough, and its working would only be in the way. */
const isSilent = ({ role, computedCelsius, indication }: MethodAnswer): boolean =>
  role === 'comparison only' && computedCelsius === undefined && indication === undefined;

function methodResult(one: MethodAnswer, units: UnitSystem): string {
  if (one.computedCelsius === undefined) return one.indication ?? `no number; ${one.reason}`;
  const value = one.noPreheatNeeded
    ? `no preheat needed (the ${one.tabulated ? 'table' : 'formula'} gives ${degrees(one.computedCelsius, units)})`
    : degrees(one.computedCelsius, units);
  return one.applicable === 'extended' ? `${value}, beyond its validated range: ${one.reason}` : value;
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
