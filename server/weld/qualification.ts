/**
 * What a welder is qualified for, as the certificate says. Whether the range covers the joint in thickness, position
 * and material is read by people: here only the process is compared, and the days.
 */
import { z } from 'zod';
import { daySchema } from './instrument.ts';
import { nameSchema, textSchema } from './text.ts';
import { processes } from './welding.ts';

export const qualificationSchema = z
  .strictObject({
    standard: nameSchema.meta({ description: 'As ISO 9606-1 or ASME BPVC Section IX.' }),
    processes: z.array(z.enum(processes)).min(1).max(processes.length).meta({ description: 'ISO 4063 numbers.' }),
    range: textSchema.meta({ description: 'What it covers, as the certificate says it.' }),
    certificate: nameSchema,
    validUntil: daySchema
      .optional()
      .meta({ description: 'Last day on which it holds, where the certificate has one.' }),
    confirmedOn: daySchema.optional().meta({ description: 'Last confirmed, or last welded with the process.' }),
    confirmEveryMonths: z.number().int().min(1).max(60).optional().meta({
      description: 'It lapses where it was not confirmed for so long; absent where the standard asks for none.',
    }),
  })
  .meta({ id: 'Qualification', description: 'A qualification of a welder.' });
export type Qualification = z.infer<typeof qualificationSchema>;

/**
 * Months between confirmations, for whoever enters one. ISO 9606-1 asks for a confirmation every six months, ASME BPVC
 * Section IX (QW-322) lets a qualification lapse after six months without welding by the process. Both from memory.
 */
export const monthsBetweenConfirmations = 6;
