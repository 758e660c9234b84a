/** What the qualified procedure asks for. What it does not state is absent, never a default. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { breaksSchema } from './break.ts';
import { checksSchema, pointsSchema } from './checks.ts';
import { sha256Schema } from './document.ts';
import { procedureQualificationSchema } from './procedure-qualification.ts';
import { nameSchema } from './text.ts';
import { heatWindowSchema } from './welding.ts';

const temperature = (description: string) => z.number().min(-50).max(900).meta({ description });

const rate = (description: string) =>
  z
    .number()
    .positive()
    .max(10_000)
    .meta({ description: `${description} Kelvin per hour.` });

export const procedureSchema = z
  .strictObject({
    id: nameSchema,
    revision: nameSchema,
    title: nameSchema.meta({ description: 'What the procedure is for, in a few words.' }).optional(),
    codeEdition: nameSchema.meta({ description: 'Code and edition that the procedure was written to.' }).optional(),
    /** SHA-256 of the kept document, where there is one. */
    document: sha256Schema.optional(),
    preheatMinimumCelsius: temperature(
      'Lowest temperature of the weld zone before each pass (ISO 13916 Tp).',
    ).optional(),
    interpassMaximumCelsius: temperature('Highest temperature just before the next pass (ISO 13916 Ti).').optional(),
    maintenanceMinimumCelsius: temperature(
      'Lowest temperature while welding is interrupted (ISO 13916 Tm).',
    ).optional(),
    highestCelsius: temperature('Highest temperature allowed anywhere on the part at any time.').optional(),
    evennessMaximumKelvin: z
      .number()
      .positive()
      .max(500)
      .meta({
        description:
          'Largest spread of the zone probes of one face. No standard gives one; none stated: shown, not judged.',
      })
      .optional(),
    soakHoldMinutes: z
      .number()
      .min(0)
      .max(10_000)
      .meta({
        description:
          'Soak rule where the heaters stay on: minutes at or above minimum before the first pass. None stated: not judged. Where the heat goes off the wait follows from the thickness.',
      })
      .optional(),
    throughThicknessHoldMinutes: z
      .number()
      .min(0)
      .max(10_000)
      .meta({
        description:
          'Soak rule by heat conduction: minutes for which the coldest point through every part is at or above minimum before the first pass. None stated: computed and shown, not asked for.',
      })
      .optional(),
    zonePlacesRequired: z
      .number()
      .int()
      .min(1)
      .max(limits.probesMaximum)
      .meta({ description: 'Zone places that must be at minimum, of those fitted. Absent: every one.' })
      .optional(),
    heatingMaximumKelvinPerHour: rate('Fastest heating of a zone place before the first pass.').optional(),
    coolingMaximumKelvinPerHour: rate(
      'Fastest cooling of a zone place after welding, or after post-heating where one is asked for.',
    ).optional(),
    ratesAboveCelsius: temperature(
      'Heating and cooling rates count at and above this temperature. Absent: at all temperatures.',
    ).optional(),
    coveredToCelsius: temperature(
      'The joint cools under cover down to this temperature before it is uncovered.',
    ).optional(),
    coolBeforeHeatTreatmentCelsius: temperature(
      'The whole zone has to cool to this temperature or below before heat treatment (martensitic steels).',
    ).optional(),
    heatTreatmentWithinHours: z
      .number()
      .positive()
      .max(1000)
      .meta({ description: 'Longest time from the end of welding to the beginning of heat treatment.' })
      .optional(),
    ambientCelsius: temperature(
      'The waiting time before testing counts from when the hottest place is at this temperature or below. Absent: from the end of welding.',
    ).optional(),
    probeSpots: z
      .enum(['examined'])
      .meta({
        description:
          'Spots where probes were welded on are ground and examined before the joint is closed. Absent: not asked for.',
      })
      .optional(),
    breaks: breaksSchema.optional(),
    checks: checksSchema.optional(),
    points: pointsSchema.optional(),
    decisionRule: z.enum(['simple acceptance', 'guarded']).meta({
      description:
        'Simple acceptance: the reading is compared with the limit directly. Guarded (ISO 14253-1): a limit counts as kept or broken only where the reading lies beyond it by the guard band; within the band it cannot be judged.',
    }),
    guardFactor: z
      .number()
      .min(1)
      .max(3)
      .meta({
        description:
          'Of a guarded rule: width of the guard band in standard uncertainties of the reading. 1.645 covers 95 % to one side, 2 is the expanded uncertainty with k = 2.',
      })
      .optional(),
    twinReadingHours: z
      .number()
      .min(0)
      .max(168)
      .meta({
        description:
          'How often a reading by hand beside a probe is asked for while the part is warm, hours; 0: never. Absent: once in 8 h, a shift.',
      })
      .optional(),
    calibration: z
      .enum(['remarked', 'required'])
      .meta({
        description:
          'What an overdue or unknown calibration means. Remarked (also where absent): told, and changes no verdict. Required: a condition of readiness; without it a pass cannot be judged.',
      })
      .optional(),
    heatInput: heatWindowSchema.optional(),
    interpassEvery: z
      .union([z.strictObject({ minutes: z.number().min(0.5).max(1000) }), z.literal('revolution')])
      .meta({
        description:
          'Continuous welding of a turning part: within a pass the interpass temperature ahead of the arc is read every so many minutes, or once each revolution, whose time is entered with the pass. Absent: at the start of each pass alone.',
      })
      .optional(),
    ambientCheck: z
      .enum(['required', 'remarked', 'not asked'])
      .meta({
        description:
          'The check of all probes at ambient before heating, each touched in turn. Required: a condition of readiness; without it a pass cannot be judged. Remarked (also where absent): told, and changes no verdict.',
      })
      .optional(),
    qualification: procedureQualificationSchema.optional(),
  })
  .superRefine((procedure, context) => {
    const { decisionRule: rule, guardFactor: factor } = procedure;
    if ((rule === 'guarded') !== (factor !== undefined)) {
      const message =
        rule === 'guarded'
          ? 'the width of the guard band in standard uncertainties, since the rule is guarded: 1.645 for 95 % to one side, 2 for k = 2'
          : 'nothing, since under simple acceptance there is no guard band';
      context.addIssue({ code: 'custom', path: ['guardFactor'], message });
    }
    for (const [lower, upper] of ordered) {
      const low = procedure[lower.field];
      const high = procedure[upper.field];
      if (low === undefined || high === undefined || low <= high) continue;
      context.addIssue({
        code: 'custom',
        path: [upper.field],
        message: `at least ${low} °C, the ${lower.name} (${lower.field}); one of the two is mistyped`,
      });
    }
  })
  .meta({ id: 'Procedure', description: 'The limits of the qualified welding procedure that is bound to the joint.' });
export type Procedure = z.infer<typeof procedureSchema>;

const minimum = { field: 'preheatMinimumCelsius', name: 'minimum preheat' } as const;
const interpass = { field: 'interpassMaximumCelsius', name: 'maximum interpass temperature' } as const;
const maintenance = { field: 'maintenanceMinimumCelsius', name: 'maintenance temperature' } as const;
const highest = { field: 'highestCelsius', name: 'highest temperature allowed' } as const;

/** Pairs that no temperature could satisfy the other way round. */
const ordered = [
  [minimum, interpass],
  [maintenance, interpass],
  [minimum, highest],
  [interpass, highest],
  [maintenance, highest],
] as const;
