/**
 * Chemical analysis as reported. "Not reported" is never zero: an element that a formula needs and the
 * paper does not give is asked for. Mass fractions in percent.
 */
import { z } from 'zod';

export const elements = ['C', 'Si', 'Mn', 'P', 'S', 'Cr', 'Mo', 'Ni', 'Cu', 'V', 'Nb', 'Ti', 'B', 'N', 'Al'] as const;
export type Element = (typeof elements)[number];

const percent = z
  .number()
  .min(0, 'a mass fraction cannot be negative')
  .max(100, 'a mass fraction cannot be above 100 %');

/** A reported value, an upper bound that a person states, or the plain statement that it is not reported. */
export const contentSchema = z.union([percent, z.strictObject({ atMost: percent }), z.literal('not reported')]);
export type Content = z.infer<typeof contentSchema>;

export const analysisOrigins = [
  'heat certificate',
  'product analysis',
  'optical emission',
  'handheld X-ray',
  'grade maximum',
  'estimate',
] as const;

export const analysisSchema = z
  .strictObject({
    origin: z.enum(analysisOrigins),
    certificate: z.string().max(120).optional(),
    heat: z.string().max(120).optional(),
    /** SHA-256 of the kept document, where there is one. */
    document: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .optional(),
    percent: z.partialRecord(z.enum(elements), contentSchema),
  })
  .superRefine((analysis, context) => {
    const carbon = analysis.percent.C;
    if (analysis.origin === 'handheld X-ray' && carbon !== undefined && carbon !== 'not reported') {
      context.addIssue({
        code: 'custom',
        path: ['percent', 'C'],
        message: 'a handheld X-ray instrument cannot see carbon; take C from the certificate or from optical emission',
      });
    }
  })
  .meta({ id: 'Analysis', description: 'One chemical analysis as reported, mass fractions in percent.' });
export type Analysis = z.infer<typeof analysisSchema>;
