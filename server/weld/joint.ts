/** The joint to be preheated: what stands in a joint file, and in the first entry of its record. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { analysisSchema } from './composition.ts';
import { crossChecks } from './joint-cross-checks.ts';
import { faces, probeSchema, sides } from './probe.ts';
import { procedureSchema } from './procedure.ts';
import { labelSchema, nameSchema } from './text.ts';

export const jointTypes = [
  'plate butt',
  'T',
  'cruciform',
  'corner',
  'lap',
  'pipe butt',
  'nozzle or branch',
  'build-up',
  'casting repair',
] as const;

/** ISO 4063 reference numbers. */
export const processes = ['111', '114', '121', '131', '135', '136', '137', '138', '141', '15'] as const;

export const partSchema = z
  .strictObject({
    id: nameSchema,
    /** Which side of the groove it forms; both where one part is repaired or built up. */
    side: z.enum([...sides, 'both']).meta({ description: 'Side of the groove; both: repaired or built up.' }),
    grade: labelSchema.optional(),
    thicknessMillimetres: z
      .number()
      .positive()
      .max(2000)
      .meta({ description: 'Thickness of the part itself at the joint; not the combined thickness.' }),
    /** All analyses known; the one that asks for most governs. */
    analyses: z.array(analysisSchema).max(8),
  })
  .meta({ id: 'Part', description: 'One part of the joint.' });
export type Part = z.infer<typeof partSchema>;

/** ISO 3690 diffusible hydrogen of the deposited metal, or the class that the consumable is certified to. */
export const hydrogenSchema = z
  .union([
    z.strictObject({ millilitresPer100Grams: z.number().positive().max(100) }),
    z.strictObject({ class: z.enum(['H2', 'H4', 'H5', 'H8', 'H10', 'H15', 'H16']) }),
    z.literal('not stated'),
  ])
  .meta({
    description:
      'Diffusible hydrogen of the deposited metal (ISO 3690), or its class; the class counts as its upper bound.',
  });

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
      volts: z.number().positive().max(200),
      amperes: z.number().positive().max(5000),
      millimetresPerSecond: z.number().positive().max(500).meta({ description: 'Travel speed.' }),
    }),
    z.literal('not stated'),
  ])
  .meta({ description: 'Heat input of the pass that brings least.' });

export const consumableSchema = z.strictObject({
  designation: labelSchema.optional(),
  hydrogen: hydrogenSchema,
  /** Analysis of the all-weld metal; method B compares its CET with the parent metal's. */
  weldMetal: analysisSchema.optional(),
});

export const heatingSchema = z
  .strictObject({
    means: z.enum(['resistance pads', 'induction', 'gas torch', 'infrared', 'furnace', 'other']),
    face: z.enum([...faces, 'both']).meta({ description: 'The face that the heat goes in through.' }),
    whileWelding: z.enum(['on', 'off']).meta({ description: 'Whether the heaters stay on while welding.' }),
  })
  .meta({ description: 'How the joint is heated. The soak rule follows from it.' });

/** A floor that the construction code makes mandatory, entered with its source. */
export const codeFloorSchema = z
  .strictObject({
    preheatMinimumCelsius: z.number().min(-50).max(900),
    source: nameSchema,
  })
  .meta({ description: 'Mandatory minimum of the construction code, with its clause.' });

export const jointSchema = z
  .strictObject({
    format: z.literal('preheat joint 1'),
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'use small letters, digits and hyphens, at most 60'),
    title: nameSchema,
    workshop: nameSchema.optional(),
    drawing: labelSchema.optional(),
    jointType: z.enum(jointTypes),
    parts: z.array(partSchema).min(1).max(limits.partsMaximum),
    consumable: consumableSchema,
    process: z.enum(processes).meta({ description: 'ISO 4063 reference number, as text.' }),
    heatInput: heatInputSchema,
    heating: heatingSchema,
    probes: z.array(probeSchema).max(limits.probesMaximum),
    procedure: procedureSchema.optional(),
    codeFloor: codeFloorSchema.optional(),
    /** Methods whose calculation the job declares binding, by id (see metallurgy/methods). */
    bindingMethods: z.array(nameSchema).max(20).optional(),
  })
  .superRefine((joint, context) => {
    for (const { path, message } of crossChecks(joint)) context.addIssue({ code: 'custom', path, message });
  })
  .meta({
    id: 'Joint',
    title: 'Joint to be preheated',
    description:
      'Lengths in millimetres, temperatures in degrees Celsius, mass fractions in percent. What spans several fields (unique ids and wires, sides, sums, limits in order) is checked when the file is read and is not in this schema.',
  });
export type Joint = z.infer<typeof jointSchema>;
