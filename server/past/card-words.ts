/** The words of a joint that can be looked for, by what they are: so that a hit can say where it was found. */
import type { Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { CardPerson } from './people-of.ts';

export const wordFields = ['joint', 'part', 'heat', 'procedure', 'person', 'other'] as const;
export type WordField = (typeof wordFields)[number];
export type CardWords = { readonly [field in WordField]: readonly string[] };

export function cardWords(
  chain: string,
  joint: Joint,
  inputs: readonly Input[],
  people: readonly CardPerson[],
): CardWords {
  const { title, workshop, drawing, parts, procedure, repairOf, consumable, instruments } = joint;
  return {
    joint: [chain, ...stated([title, drawing, workshop, repairOf && `repair of ${repairOf.joint}`])],
    part: stated(parts.flatMap(({ id, grade }) => [id, grade])),
    heat: stated(parts.flatMap(({ analyses }) => analyses.flatMap(({ heat, certificate }) => [heat, certificate]))),
    procedure:
      procedure === undefined ? [] : stated([`${procedure.id} revision ${procedure.revision}`, procedure.title]),
    person: people.map(({ name }) => name),
    other: stated([
      joint.jointType,
      consumable.designation,
      ...inputs.flatMap((input) => (input.type === 'act' && 'batch' in input.act ? [input.act.batch] : [])),
      ...(instruments ?? []).map(({ id }) => id),
    ]),
  };
}

const stated = (texts: readonly (string | undefined)[]): string[] => [
  ...new Set(texts.filter((text) => text !== undefined && text !== '') as string[]),
];
