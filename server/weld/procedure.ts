/** What the qualified procedure asks for. What it does not state is absent, never a default. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';

const text = z.string().trim().min(1).max(limits.nameMaximum);
const temperature = z.number().min(-50).max(900);

export const procedureSchema = z
  .strictObject({
    id: text,
    revision: text,
    preheatMinimumCelsius: temperature.optional(),
    interpassMaximumCelsius: temperature.optional(),
    /** Lowest temperature while welding is interrupted (ISO 13916 Tm). */
    maintenanceMinimumCelsius: temperature.optional(),
    /** Highest temperature allowed anywhere on the part. */
    highestCelsius: temperature.optional(),
    /** Largest spread of the zone probes of one face. No standard gives one; none stated: shown, not judged. */
    evennessMaximumKelvin: z.number().positive().max(500).optional(),
    /** Hold at or above minimum before the first arc where the heaters stay on. */
    soakHoldMinutes: z.number().min(0).max(10_000).optional(),
    /** Zone places that must be at minimum: k of those fitted. Absent: every one. */
    zonePlacesRequired: z.number().int().min(1).max(limits.probesMaximum).optional(),
    /** Simple acceptance: the reading is compared with the limit directly. */
    decisionRule: z.literal('simple acceptance'),
  })
  .superRefine((procedure, context) => {
    const { preheatMinimumCelsius: minimum, interpassMaximumCelsius: maximum } = procedure;
    if (minimum !== undefined && maximum !== undefined && minimum > maximum) {
      context.addIssue({
        code: 'custom',
        path: ['interpassMaximumCelsius'],
        message: `the maximum interpass temperature ${maximum} °C is below the minimum preheat ${minimum} °C; one of them is mistyped`,
      });
    }
  })
  .meta({ id: 'Procedure', description: 'The limits of the qualified welding procedure that is bound to the joint.' });
export type Procedure = z.infer<typeof procedureSchema>;
