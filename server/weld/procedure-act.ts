/** What a person does to the station's store of procedures: records a revision, or withdraws one. Nothing is ever changed. */
import { z } from 'zod';
import type { Instant } from '../measure/quantity.ts';
import { sha256Schema } from './document.ts';
import type { Joint } from './joint.ts';
import { personSchema } from './person.ts';
import { type ProcedureRevision, procedureRevisionSchema } from './procedure-revision.ts';
import { textSchema } from './text.ts';

/** As it stands in the record. */
export const procedureActSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('procedure'),
    revision: procedureRevisionSchema,
    sha256: sha256Schema,
    reason: textSchema.optional(),
  }),
  z.strictObject({ kind: z.literal('withdraw procedure'), sha256: sha256Schema, reason: textSchema }),
]);
export type ProcedureAct = z.infer<typeof procedureActSchema>;

/** What a person asks for; the station works out the hash of a new revision. */
export type ProcedureAsked =
  | { readonly kind: 'procedure'; readonly revision: ProcedureRevision; readonly reason?: string | undefined }
  | (ProcedureAct & { readonly kind: 'withdraw procedure' });

/** As it comes over HTTP. */
export const procedureEntrySchema = z.strictObject({
  who: personSchema,
  revision: procedureRevisionSchema,
  reason: textSchema.optional().meta({ description: 'Why this revision is made; needed where the procedure has one.' }),
});
export const withdrawalSchema = z.strictObject({
  who: personSchema,
  reason: textSchema.meta({ description: 'Why no new joint may be bound to it.' }),
});

/** A revision as the station keeps it. */
export interface KeptRevision {
  readonly sha256: string;
  readonly revision: ProcedureRevision;
  readonly at: Instant;
  readonly who: string;
  readonly role?: string;
  readonly reason?: string;
  readonly withdrawn?: { readonly at: Instant; readonly who: string; readonly role?: string; readonly reason: string };
}

/** How a joint's procedure stands among those that the station keeps. */
export interface Binding {
  /** The revision that it is bound to; absent where its values were entered by hand. */
  readonly bound?: KeptRevision;
  /** Another revision of the same procedure, which holds now. */
  readonly holds?: KeptRevision;
}

export function bindingOf(
  { procedure, boundRevision }: Pick<Joint, 'procedure' | 'boundRevision'>,
  kept: readonly KeptRevision[],
): Binding | undefined {
  if (procedure === undefined || revisionsOf(kept, procedure.id).length === 0) return undefined;
  const bound = kept.find((each) => each.sha256 === boundRevision?.sha256);
  const newest = newestOf(kept, procedure.id);
  return {
    ...(bound === undefined ? {} : { bound }),
    ...(newest === undefined || newest === bound ? {} : { holds: newest }),
  };
}

/** Revisions of one procedure, oldest first. */
export const revisionsOf = (kept: readonly KeptRevision[], id: string): readonly KeptRevision[] =>
  kept.filter((each) => each.revision.procedure.id === id);

/** The newest revision of the procedure that is not withdrawn. */
export const newestOf = (kept: readonly KeptRevision[], id: string): KeptRevision | undefined =>
  revisionsOf(kept, id).findLast((each) => each.withdrawn === undefined);
