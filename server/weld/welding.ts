/** How the joint is welded: process, hydrogen, heat input, consumable. */
import { z } from 'zod';
import { analysisSchema } from './composition.ts';
import { labelSchema } from './text.ts';

/** ISO 4063 reference numbers. */
export const processes = ['111', '114', '121', '131', '135', '136', '137', '138', '141', '15'] as const;

/** ISO 3690 diffusible hydrogen of the deposited metal, or the class that the consumable is certified to. */
const hydrogenSchema = z
  .union([
    z.strictObject({ millilitresPer100Grams: z.number().positive().max(100) }),
    z.strictObject({ class: z.enum(['H2', 'H4', 'H5', 'H8', 'H10', 'H15', 'H16']) }),
    z.literal('not stated'),
  ])
  .meta({
    description:
      'Diffusible hydrogen of the deposited metal (ISO 3690), or its class; the class counts as its upper bound.',
  });

/** Numbers of an arc, each with its bound. */
export const arcSchemas = {
  volts: z.number().positive().max(200),
  amperes: z.number().positive().max(5000),
  millimetresPerSecond: z.number().positive().max(500).meta({ description: 'Travel speed.' }),
  instantaneousJoules: z
    .number()
    .positive()
    .max(1e9)
    .meta({ description: 'Instantaneous energy that a waveform-controlled source shows for the bead.' }),
  runOutMillimetres: z
    .number()
    .positive()
    .max(1_000_000)
    .meta({ description: 'Length of the run, from the arc struck to the arc out.' }),
  arcSeconds: z.number().positive().max(1e6).meta({ description: 'Seconds that the arc burnt for that length.' }),
};

/** Heat input with the efficiency of the process in it, or the three numbers that it is worked out from. */
export const heatInputSchema = z
  .union([
    z.strictObject({
      kilojoulesPerMillimetre: z
        .number()
        .positive()
        .max(50)
        .meta({ description: 'Heat input Q: arc energy times the efficiency k of the process (EN 1011-1).' }),
    }),
    z.strictObject({
      volts: arcSchemas.volts,
      amperes: arcSchemas.amperes,
      millimetresPerSecond: arcSchemas.millimetresPerSecond,
    }),
    z.strictObject({
      instantaneousJoules: arcSchemas.instantaneousJoules,
      beadMillimetres: z.number().positive().max(100_000),
    }),
    z.strictObject({
      instantaneousWatts: z
        .number()
        .positive()
        .max(1e6)
        .meta({ description: 'Instantaneous power that a waveform-controlled source shows.' }),
      millimetresPerSecond: arcSchemas.millimetresPerSecond,
    }),
    z.literal('not stated'),
  ])
  .meta({ description: 'Heat input of the pass that brings least.' });

export const consumableSchema = z.strictObject({
  designation: labelSchema.optional(),
  hydrogen: hydrogenSchema,
  glycerineMillilitresPer100Grams: z
    .number()
    .positive()
    .max(100)
    .meta({
      description:
        'Diffusible hydrogen by the old Japanese glycerine method; never converted from ISO 3690, since published conversions differ.',
    })
    .optional(),
  deposit: z
    .enum(['ferritic', 'austenitic', 'nickel'])
    .meta({ description: 'Kind of weld metal; absent counts as ferritic. Hydrogen methods hold for ferritic only.' })
    .optional(),
  /** Analysis of the all-weld metal; method B compares its CET with the parent metal's. */
  weldMetal: analysisSchema.optional(),
});

/** Which energy a window counts: heat input has the efficiency of the process in it (EN 1011-1), arc energy has not. */
const countedEnergies = ['heat input', 'arc energy'] as const;
export type CountedEnergy = (typeof countedEnergies)[number];

/** What each pass may bring, as the procedure states it. */
export const heatWindowSchema = z
  .strictObject({
    counted: z.enum(countedEnergies).meta({
      description:
        'What the window counts. Heat input: arc energy times the efficiency k of the process (EN 1011-1, ISO/TR 17671-1). Arc energy: without k (ISO/TR 18491; ASME IX QW-409.1).',
    }),
    minimumKilojoulesPerMillimetre: z.number().positive().max(50).optional(),
    maximumKilojoulesPerMillimetre: z.number().positive().max(50).optional(),
  })
  .superRefine(({ minimumKilojoulesPerMillimetre: minimum, maximumKilojoulesPerMillimetre: maximum }, context) => {
    const path = ['maximumKilojoulesPerMillimetre'];
    if (minimum === undefined && maximum === undefined)
      context.addIssue({ code: 'custom', path, message: 'the most that a pass may bring, or the least, or both' });
    if (minimum === undefined || maximum === undefined || minimum <= maximum) return;
    const message = `at least ${minimum} kJ/mm, the least that a pass has to bring; one of the two is mistyped`;
    context.addIssue({ code: 'custom', path, message });
  })
  .meta({ description: 'Window of the energy of each pass. Absent: shown, not judged.' });
export type HeatWindow = z.infer<typeof heatWindowSchema>;
