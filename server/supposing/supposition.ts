/** What may be supposed of a joint otherwise than its record says: one change at a time, stated, and never an entry. */
import { z } from 'zod';
import { nameSchema } from '../weld/text.ts';

/** Longer than this nothing of a trend can be carried on. Own choice. */
const longestMoreMinutes = 60;

const temperature = z.number().min(-50).max(900).optional();
const minutes = z.number().min(0).max(10_000).optional();

export const suppositionSchema = z.discriminatedUnion('kind', [
  /** The face that is not heated loses nothing, on every part. */
  z.strictObject({ kind: z.literal('far face insulated') }),
  /** As if it had never been fitted. */
  z.strictObject({ kind: z.literal('probe left out'), probe: nameSchema }),
  /** The pass begins so much later, and nothing else is done until then. */
  z.strictObject({
    kind: z.literal('more time'),
    pass: nameSchema,
    minutes: z.number().positive().max(longestMoreMinutes),
  }),
  /** Limits of the procedure as another one would state them; what is not stated stays. */
  z.strictObject({
    kind: z.literal('other limits'),
    preheatMinimumCelsius: temperature,
    interpassMaximumCelsius: temperature,
    soakHoldMinutes: minutes,
    throughThicknessHoldMinutes: minutes,
  }),
]);
export type Supposition = z.infer<typeof suppositionSchema>;

/** What is supposed, and of which record: as it stood at a moment; absent: as it stands. */
export const questionSchema = z.strictObject({
  supposed: suppositionSchema,
  at: z.number().int().positive().optional(),
});
export type Question = z.infer<typeof questionSchema>;
