/** The shift is handed over: whoever enters it hands over, the other takes over, and both sign in one go. */
import { z } from 'zod';
import { proofs } from './person.ts';
import { nameSchema, textSchema } from './text.ts';

export const handOverSchema = z.strictObject({
  kind: z.literal('hand-over'),
  to: nameSchema.meta({ description: 'Who takes over.' }),
  /** Written by the desk, never taken from who sends the act. */
  toPerson: nameSchema.optional(),
  toProof: z.enum(proofs).optional(),
  note: textSchema.optional(),
});
export type HandOverAct = z.infer<typeof handOverSchema>;
