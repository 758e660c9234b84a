/** What is asked of the record, as it comes from an address or a command line: text by name, checked, each refusal with what is allowed. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { isDay } from '../weld/day.ts';
import { sourceKinds } from '../weld/entry.ts';
import { roles } from '../weld/person.ts';
import { type Problem, problems } from '../weld/problems.ts';
import { wordFields } from './card-words.ts';
import { dayBegins, dayEnds } from './days.ts';
import { findingKinds, verdicts } from './kinds.ts';
import type { Asked } from './search.ts';

const words = z.string().trim().max(limits.nameMaximum);
const day = z.string().refine(isDay, 'a day, as 2026-11-25');

const askedSchema = z
  .strictObject({
    words,
    ...(Object.fromEntries(wordFields.map((field) => [field, words])) as Record<
      (typeof wordFields)[number],
      typeof words
    >),
    role: z.enum(roles),
    from: day,
    to: day,
    state: z.enum(['open', 'closed']),
    verdict: z.enum(verdicts),
    finding: z.enum(findingKinds),
    source: z.enum(sourceKinds),
    repairOf: words.meta({ description: 'Id of the joint that was repaired, or "any".' }),
  })
  .partial();

/** Names of all that can be asked. */
export const askedNames: readonly string[] = Object.keys(askedSchema.shape);

export type ReadAsked = { readonly asked: Asked } | { readonly problems: readonly Problem[] };

/** Days are those of the zone. What is empty is not asked. */
export function readAsked(given: Readonly<Record<string, unknown>>, zone: string): ReadAsked {
  const stated = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== '' && value !== undefined));
  const read = askedSchema.safeParse(stated);
  if (!read.success) return { problems: problems(read.error, stated, askedSchema) };
  const { from, to, words, role, state, verdict, finding, source, repairOf, ...fields } = read.data;
  if (from !== undefined && to !== undefined && to < from)
    return { problems: [{ field: 'to', found: to, allowed: `${from} or later, the day that it begins with` }] };
  const asked: { -readonly [K in keyof Asked]: Asked[K] } = {};
  if (words !== undefined) asked.words = words;
  if (Object.keys(fields).length > 0) asked.in = fields as NonNullable<Asked['in']>;
  if (role !== undefined) asked.role = role;
  if (from !== undefined) asked.from = dayBegins(from, zone);
  if (to !== undefined) asked.to = dayEnds(to, zone);
  if (state !== undefined) asked.state = state;
  if (verdict !== undefined) asked.verdict = verdict;
  if (finding !== undefined) asked.finding = finding;
  if (source !== undefined) asked.source = source;
  if (repairOf !== undefined) asked.repairOf = repairOf === 'any' ? true : repairOf;
  return { asked };
}
