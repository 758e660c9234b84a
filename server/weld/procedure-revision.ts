/**
 * A procedure as a document of its own: one revision, whole. It is recorded once and never changed; another revision takes
 * its place. A joint that is bound to it carries all of its values, so that the joint's record needs no other.
 */
import { z } from 'zod';
import { codeSets, waitingEditions } from './code.ts';
import { sha256Schema } from './document.ts';
import type { Joint } from './joint.ts';
import { procedureSchema } from './procedure.ts';

/** What a procedure states and the joint holds beside its `procedure`, under the same names. */
export const besideProcedure = {
  codeSet: z
    .enum(codeSets)
    .meta({
      description: 'Code whose methods may govern and whose table is a floor. Absent: every method that applies.',
    })
    .optional(),
  coolingSeconds: z
    .strictObject({ minimum: z.number().positive().max(1000), maximum: z.number().positive().max(1000) })
    .superRefine(({ minimum, maximum }, context) => {
      if (minimum <= maximum) return;
      const message = `at least ${minimum} s, the shortest cooling time; one of the two is mistyped`;
      context.addIssue({ code: 'custom', path: ['maximum'], message });
    })
    .meta({ description: 'Window of the cooling time from 800 to 500 °C that the procedure allows.' })
    .optional(),
  waitingEdition: z
    .enum(waitingEditions)
    .meta({ description: 'Rule for the wait between the end of welding and testing.' })
    .optional(),
  postHeating: z
    .strictObject({
      celsius: z.number().min(20).max(700),
      hours: z.number().positive().max(1000),
      maximumCelsius: z.number().min(20).max(900).optional(),
      counted: z.enum(['continuous', 'cumulative']).optional(),
    })
    .superRefine(({ celsius, maximumCelsius }, context) => {
      if (maximumCelsius === undefined || maximumCelsius > celsius) return;
      const message = `more than ${celsius} °C, the temperature to be held; one of the two is mistyped`;
      context.addIssue({ code: 'custom', path: ['maximumCelsius'], message });
    })
    .meta({
      description:
        'Post-heating (hydrogen release) that the procedure asks for: every zone place at the temperature or above for so many hours. Counted without a break (also where absent), or summed over several stretches.',
    })
    .optional(),
};

export const besideFields = [
  'codeSet',
  'coolingSeconds',
  'waitingEdition',
  'postHeating',
] as const satisfies readonly (keyof typeof besideProcedure)[];
export type BesideField = (typeof besideFields)[number];

export const procedureRevisionSchema = z
  .strictObject({ format: z.literal('preheat procedure 1'), procedure: procedureSchema, ...besideProcedure })
  .meta({
    id: 'ProcedureRevision',
    title: 'One revision of a welding procedure',
    description: 'What joints may be bound to. Temperatures in degrees Celsius. What it does not state is absent.',
  });
export type ProcedureRevision = z.infer<typeof procedureRevisionSchema>;

/** Which recorded revision the values of a joint are. Its hash can be worked out again from the joint alone. */
export const boundRevisionSchema = z
  .strictObject({
    sha256: sha256Schema.meta({ description: 'SHA-256 of the canonical bytes of the revision.' }),
    beside: z
      .array(z.enum(besideFields))
      .max(besideFields.length)
      .meta({ description: 'What the revision states beside its procedure; the joint has more of its own.' }),
  })
  .meta({ description: 'The recorded revision that the procedure of this joint is.' });

type Carrying = Pick<Joint, 'procedure' | 'boundRevision' | BesideField>;

/** The revision as the joint carries it; undefined where it is bound to none. */
export function carriedRevision(joint: Carrying): ProcedureRevision | undefined {
  const { procedure, boundRevision } = joint;
  if (procedure === undefined || boundRevision === undefined) return undefined;
  return { format: 'preheat procedure 1', procedure, ...stated(joint, boundRevision.beside) };
}

/** The values of a revision as fields of a joint. What the revision does not state is the joint's own. */
export function asBound(revision: ProcedureRevision, sha256: string): Carrying {
  const beside = besideFields.filter((field) => revision[field] !== undefined);
  return { procedure: revision.procedure, boundRevision: { sha256, beside }, ...stated(revision, beside) };
}

/** The joint with another revision in place of the one it has. */
export function reboundTo<J extends Carrying>(joint: J, revision: ProcedureRevision, sha256: string): J {
  const own = { ...joint };
  for (const field of joint.boundRevision?.beside ?? []) delete own[field];
  return { ...own, ...asBound(revision, sha256) };
}

const stated = (from: Partial<Record<BesideField, unknown>>, fields: readonly BesideField[]) =>
  Object.fromEntries(fields.flatMap((field) => (from[field] === undefined ? [] : [[field, from[field]]]))) as Pick<
    ProcedureRevision,
    BesideField
  >;
