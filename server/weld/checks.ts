/**
 * Checks before welding, and points at which somebody looks before the work goes on. Which there are, what blocks and what
 * only warns, is the procedure's choice: none is there unless it is stated. Hold and witness points are terms of inspection
 * plans: at a hold point work stops until it is released, at a witness point somebody is given the chance to attend.
 */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { sha256Schema } from './document.ts';
import { happenedAt } from './happened-at.ts';
import { nameSchema, textSchema } from './text.ts';

export const checkRoles = ['welder', 'heater operator', 'inspector', 'coordinator', 'third party'] as const;
export const pointRoles = ['inspector', 'coordinator', 'third party'] as const;

const checkSchema = z.strictObject({
  id: nameSchema,
  text: nameSchema.meta({ description: 'What is looked at, in one line.' }),
  weight: z.enum(['blocks', 'warns']).meta({
    description: 'Blocks: a condition of readiness; without it a pass cannot be judged. Warns: remarked.',
  }),
  role: z.enum(checkRoles).meta({ description: 'Whose answer counts. Absent: that of anybody on the job.' }).optional(),
});
export type Check = z.infer<typeof checkSchema>;

export const pointTimes = ['first pass', 'pass', 'post-heating', 'closing'] as const;

const pointSchema = z
  .strictObject({
    id: nameSchema,
    text: nameSchema.optional(),
    kind: z.enum(['hold', 'witness']),
    before: z.enum(pointTimes),
    pass: nameSchema.meta({ description: 'Of a point before a pass: its name.' }).optional(),
    role: z.enum(pointRoles).meta({ description: 'Who releases it.' }),
  })
  .superRefine(({ before, pass }, context) => {
    if ((before === 'pass') === (pass !== undefined)) return;
    const message = before === 'pass' ? 'the name of the pass' : 'nothing, since the point is not before a named pass';
    context.addIssue({ code: 'custom', path: ['pass'], message });
  });
export type Point = z.infer<typeof pointSchema>;

const unique = (list: readonly { readonly id: string }[], context: z.RefinementCtx): void => {
  for (const [index, { id }] of list.entries()) {
    if (list.findIndex((each) => each.id === id) < index)
      context.addIssue({ code: 'custom', path: [index, 'id'], message: `an id of its own; ${id} stands twice` });
  }
};

export const checksSchema = z
  .array(checkSchema)
  .max(limits.checksMaximum)
  .superRefine(unique)
  .meta({ description: 'Checks before welding. Absent: none is asked for.' });
export const pointsSchema = z
  .array(pointSchema)
  .max(limits.checksMaximum)
  .superRefine(unique)
  .meta({ description: 'Hold and witness points. Absent: none.' });

const checkAnswers = ['in order', 'not in order', 'not applicable'] as const;

/** Answered again it takes the place of the answer before. */
export const checkAnsweredSchema = z
  .strictObject({
    kind: z.literal('check answered'),
    check: nameSchema,
    answer: z.enum(checkAnswers),
    note: textSchema.meta({ description: 'Needed unless it is in order.' }).optional(),
    /** A photo that was attached before. */
    document: sha256Schema.optional(),
    happenedAt,
  })
  .superRefine(({ answer, note }, context) => {
    if (answer !== 'in order' && note === undefined)
      context.addIssue({ code: 'custom', path: ['note'], message: 'what is not in order, or why it does not apply' });
  });

export const pointReleasedSchema = z.strictObject({
  kind: z.literal('point released'),
  point: nameSchema,
  note: textSchema.optional(),
  happenedAt,
});

/** Whoever may release it does without. */
export const pointWaivedSchema = z.strictObject({
  kind: z.literal('point waived'),
  point: nameSchema,
  reason: textSchema,
  happenedAt,
});

/** Whoever may release it looked, and does not: the work stays held until it is released or waived. */
export const pointRefusedSchema = z.strictObject({
  kind: z.literal('point refused'),
  point: nameSchema,
  reason: textSchema.meta({ description: 'What has to be done first.' }),
  happenedAt,
});

export type CheckAct =
  | z.infer<typeof checkAnsweredSchema>
  | z.infer<typeof pointReleasedSchema>
  | z.infer<typeof pointWaivedSchema>
  | z.infer<typeof pointRefusedSchema>;
