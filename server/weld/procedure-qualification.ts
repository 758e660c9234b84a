/** What the record of a procedure's test piece holds: the values around which production may range (metallurgy/qualified-range.ts). */
import { z } from 'zod';
import { labelSchema, nameSchema } from './text.ts';
import { heatWindowSchema } from './welding.ts';

const temperature = (description: string) => z.number().min(-50).max(900).meta({ description });

/** Rules of departure differ between the editions of ISO 15614-1. */
export const qualificationStandards = ['ASME IX', 'ISO 15614-1:2017', 'ISO 15614-1:2004'] as const;

export const procedureQualificationSchema = z
  .strictObject({
    record: nameSchema.meta({ description: 'Number of the procedure qualification record (PQR, WPQR).' }),
    standard: z.enum(qualificationStandards),
    edition: labelSchema.meta({ description: 'Edition or amendment, where the standard does not name it.' }).optional(),
    preheatCelsius: temperature('Lowest preheat of the test piece.').optional(),
    interpassCelsius: temperature('Highest interpass temperature of the test piece.').optional(),
    maintenanceCelsius: temperature(
      'Lowest temperature at which the test piece was kept from the end of welding to its heat treatment.',
    ).optional(),
    postHeating: z
      .union([
        z.literal('none'),
        z.strictObject({ celsius: z.number().min(20).max(700), hours: z.number().positive().max(1000) }),
      ])
      .meta({ description: 'Post-heating (hydrogen release) of the test piece, or none. Absent: not known.' })
      .optional(),
    /** As it stands there; no departure is worked out here. */
    heatInput: heatWindowSchema.optional(),
    impactTests: z
      .enum(['required', 'not required'])
      .meta({
        description:
          'Of ASME IX: whether the job requires impact tests. Only then is the interpass temperature bound to that of the test piece.',
      })
      .optional(),
    interpassRise: z
      .enum(['allowed', 'not allowed'])
      .meta({
        description:
          'Of ISO 15614-1:2017: whether the standard lets the interpass temperature of this material group rise above that of the test piece; see the copy of the standard.',
      })
      .optional(),
  })
  .superRefine((qualification, context) => {
    const { preheatCelsius: preheat, interpassCelsius: interpass, standard } = qualification;
    const wrong = (path: string[], message: string): void => {
      context.addIssue({ code: 'custom', path, message });
    };
    if (preheat !== undefined && interpass !== undefined && interpass < preheat)
      wrong(['interpassCelsius'], `at least ${preheat} °C, the preheat of the test piece; one of the two is mistyped`);
    if (qualification.impactTests !== undefined && standard !== 'ASME IX')
      wrong(['impactTests'], 'nothing, since only ASME IX asks whether impact tests are required');
    if (qualification.interpassRise !== undefined && standard !== 'ISO 15614-1:2017')
      wrong(['interpassRise'], 'nothing, since only ISO 15614-1:2017 lets it rise for some material groups');
  })
  .meta({
    description:
      'The test piece that qualifies the procedure. Production values are compared with it; without it nothing is compared.',
  });
export type ProcedureQualification = z.infer<typeof procedureQualificationSchema>;
