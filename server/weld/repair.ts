/**
 * A repair is a joint of its own, with its own requirement and its own record, that names the joint it mends. What has to be
 * known before heat goes into it again is asked for and never assumed: the metal, what was found and why, how it was taken
 * out and shown to be gone, and what heat treatment lies before and after it.
 */
import { z } from 'zod';
import { examinationMethods } from './break.ts';
import { nameSchema, textSchema } from './text.ts';

export const excavationMethods = ['grinding', 'machining', 'gouging', 'thermal cutting'] as const;
export const repairedMetals = ['weld metal', 'base metal', 'both', 'casting'] as const;

const millimetres = (description: string) => z.number().positive().max(10_000).meta({ description });

export const repairSchema = z
  .strictObject({
    joint: nameSchema.meta({ description: 'Id of the joint that is mended.' }),
    found: textSchema.meta({ description: 'The finding or indication that it is for.' }),
    metal: z.enum(repairedMetals),
    cause: textSchema.meta({ description: 'Why it came about, as far as it is known; say so where it is not.' }),
    excavation: z.strictObject({
      method: z.enum(excavationMethods),
      depthMillimetres: millimetres('Deepest point of the excavation.'),
      lengthMillimetres: millimetres('Length of the excavation.'),
      examinedBy: z.enum(examinationMethods).meta({ description: 'How it was shown that nothing is left.' }),
      result: z.enum(['free of defects', 'not free of defects', 'not examined yet']),
    }),
    heatTreatment: z
      .strictObject({
        before: textSchema.meta({
          description: 'The heat treatment that the metal has had; "none" where it has had none.',
        }),
        after: textSchema.meta({ description: 'The heat treatment that follows the repair; "none" where none does.' }),
      })
      .meta({ description: 'Before the repair and after it.' }),
    preheatWidthMillimetres: millimetres('How far from the excavation the preheat has to reach, in every direction.'),
  })
  .meta({ description: 'What joint this one repairs, and the background that a repair needs. Absent: it is none.' });
export type RepairOf = z.infer<typeof repairSchema>;
