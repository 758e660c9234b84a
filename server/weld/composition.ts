/**
 * Chemical analysis as reported. "Not reported" is never zero: an element that a formula needs and the
 * paper does not give is asked for. Mass fractions in percent.
 */
import { z } from 'zod';
import { contentSlip, sumAbove } from './composition-slip.ts';
import { sha256Schema } from './document.ts';
import { labelSchema } from './text.ts';

export const elements = ['C', 'Si', 'Mn', 'P', 'S', 'Cr', 'Mo', 'Ni', 'Cu', 'V', 'Nb', 'Ti', 'B', 'N', 'Al'] as const;
export type Element = (typeof elements)[number];

const percent = z
  .number()
  .min(0, 'a mass fraction cannot be negative')
  .max(100, 'a mass fraction cannot be above 100 %');

/** A reported value, an upper bound that a person states, or the plain statement that it is not reported. */
const contentSchema = z.union([percent, z.strictObject({ atMost: percent }), z.literal('not reported')]);
export type Content = z.infer<typeof contentSchema>;

export const analysisOrigins = [
  'heat certificate',
  'product analysis',
  'optical emission',
  'handheld X-ray',
  'grade maximum',
  'estimate',
] as const;

/** What X-ray fluorescence in a handheld instrument cannot see: elements too light for it. */
const blindElements: readonly Element[] = ['C', 'B', 'N'];

export const analysisSchema = z
  .strictObject({
    origin: z.enum(analysisOrigins),
    certificate: labelSchema.optional(),
    heat: labelSchema.optional(),
    /** SHA-256 of the kept document, where there is one. */
    document: sha256Schema.optional(),
    percent: z
      .partialRecord(z.enum(elements), contentSchema)
      .meta({ description: 'Mass fractions in percent. An element left out counts as not reported, never as zero.' }),
  })
  .superRefine((analysis, context) => {
    const stated = Object.entries(analysis.percent) as [Element, Content][];
    for (const [element, content] of stated) {
      const path = ['percent', element];
      const slip = contentSlip(element, content);
      if (slip !== undefined) context.addIssue({ code: 'custom', path, message: slip });
      if (analysis.origin === 'handheld X-ray' && blindElements.includes(element) && content !== 'not reported') {
        context.addIssue({
          code: 'custom',
          path,
          message: `"not reported", because a handheld X-ray instrument cannot see ${element}; take it from the certificate or from optical emission`,
        });
      }
    }
    const sum = sumAbove(stated.map(([, content]) => content));
    if (sum !== undefined) context.addIssue({ code: 'custom', path: ['percent'], message: sum });
  })
  .meta({ id: 'Analysis', description: 'One chemical analysis as reported, mass fractions in percent.' });
export type Analysis = z.infer<typeof analysisSchema>;
