/** The joint to be preheated: what stands in a joint file, and in the first entry of its record. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { unitSystems } from '../measure/units.ts';
import { chartReadingSchema } from './chart-reading.ts';
import { instrumentSchema } from './instrument.ts';
import { crossChecks } from './joint-cross-checks.ts';
import { partSchema } from './part.ts';
import { faces, probeSchema } from './probe.ts';
import { procedureSchema } from './procedure.ts';
import { labelSchema, nameSchema } from './text.ts';
import { consumableSchema, heatInputSchema, processes } from './welding.ts';

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

export const heatingSchema = z
  .strictObject({
    means: z.enum(['resistance pads', 'induction', 'gas torch', 'infrared', 'furnace', 'other']),
    face: z.enum([...faces, 'both']).meta({ description: 'The face that the heat goes in through.' }),
    whileWelding: z.enum(['on', 'off']).meta({ description: 'Whether the heaters stay on while welding.' }),
    halfWidthMillimetres: z
      .number()
      .positive()
      .max(10_000)
      .meta({ description: 'From the edge of the groove to the outer edge of the heater. Not needed in a furnace.' })
      .optional(),
    airCelsius: z
      .number()
      .min(-50)
      .max(60)
      .meta({ description: 'Lowest air temperature expected around the part; an ambient probe can stand for it.' })
      .optional(),
    setPointCelsius: z
      .number()
      .min(-50)
      .max(900)
      .meta({ description: 'Temperature at which the heated face is held; forecasts end their rise there.' })
      .optional(),
  })
  .meta({ description: 'How the joint is heated. The soak rule follows from it.' });

/** A floor that the construction code makes mandatory, entered with its source. */
export const codeFloorSchema = z
  .strictObject({
    preheatMinimumCelsius: z.number().min(-50).max(900),
    source: nameSchema,
  })
  .meta({ description: 'Mandatory minimum of the construction code, with its clause.' });

export const codeSets = ['EN 1011-2', 'AWS D1.1', 'ASME B31.3:2014', 'ASME B31.3:2010', 'ASME B31.1'] as const;
export type CodeSet = (typeof codeSets)[number];

export const waitingEditions = [
  'EN 1090-2:2008',
  'UK structural specification 2007',
  'EN 1011-2:2001',
  'North Sea practice',
  'AWS D1.1',
] as const;

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
    /** Register of what is measured with. Absent: nothing is known of it, and readings stand as they came. */
    instruments: z.array(instrumentSchema).max(limits.instrumentsMaximum).optional(),
    procedure: procedureSchema.optional(),
    codeFloor: codeFloorSchema.optional(),
    /** Methods whose calculation the job declares binding, by id (see metallurgy/methods). */
    bindingMethods: z.array(nameSchema).max(20).optional(),
    units: z
      .enum(unitSystems)
      .meta({ description: 'Unit system of the job: how its papers are written, and which bands of a table count.' })
      .optional(),
    codeSet: z
      .enum(codeSets)
      .meta({
        description: 'Code whose methods may govern and whose table is a floor. Absent: every method that applies.',
      })
      .optional(),
    restraint: z
      .enum(['low', 'medium', 'high'])
      .meta({
        description: 'Restraint: low, members can move; medium, held by the structure; high, almost no movement.',
      })
      .optional(),
    restraintIntensity: z
      .number()
      .positive()
      .max(100_000)
      .meta({ description: 'Restraint intensity K, newtons per square millimetre (Ito and Bessyo).' })
      .optional(),
    stressConcentration: z
      .number()
      .positive()
      .max(100)
      .meta({ description: 'Stress concentration Kt of the weld, for the cracking index of Yurioka.' })
      .optional(),
    meanWeldStressMegapascals: z
      .number()
      .positive()
      .max(2500)
      .meta({ description: 'Mean stress of the weld, for the cracking index of Yurioka.' })
      .optional(),
    crackingZone: z
      .enum(['I', 'II', 'III'])
      .meta({ description: 'Zone of the diagram of carbon and carbon equivalent in AWS D1.1, read off by a person.' })
      .optional(),
    chartReadings: z.array(chartReadingSchema).max(10).optional(),
    weldShape: z
      .enum(['run on plate', 'between runs of a butt weld', 'fillet on a corner joint', 'fillet on a T-joint'])
      .meta({ description: 'Shape of the weld, for its cooling time.' })
      .optional(),
    coolingSeconds: z
      .strictObject({ minimum: z.number().positive().max(1000), maximum: z.number().positive().max(1000) })
      .superRefine(({ minimum, maximum }, context) => {
        if (minimum <= maximum) return;
        const message = `at least ${minimum} s, the shortest cooling time; one of the two is mistyped`;
        context.addIssue({ code: 'custom', path: ['maximum'], message });
      })
      .meta({ description: 'Window of the cooling time from 800 to 500 °C that the procedure allows.' })
      .optional(),
    weldSizeMillimetres: z
      .number()
      .positive()
      .max(2000)
      .meta({ description: 'Throat, or depth of penetration; absent: the thickness of the thickest part.' })
      .optional(),
    waitingEdition: z
      .enum(waitingEditions)
      .meta({ description: 'Rule for the wait between the end of welding and testing.' })
      .optional(),
    postHeating: z
      .strictObject({
        celsius: z.number().min(20).max(700),
        hours: z.number().positive().max(1000),
        maximumCelsius: z.number().min(20).max(900).optional(),
        counted: z.enum(['continuous', 'cumulative']).optional(),
      })
      .superRefine(({ celsius, maximumCelsius }, context) => {
        if (maximumCelsius === undefined || maximumCelsius > celsius) return;
        const message = `more than ${celsius} °C, the temperature to be held; one of the two is mistyped`;
        context.addIssue({ code: 'custom', path: ['maximumCelsius'], message });
      })
      .meta({
        description:
          'Post-heating (hydrogen release) that the procedure asks for: every zone place at the temperature or above for so many hours. Counted without a break (also where absent), or summed over several stretches.',
      })
      .optional(),
    contact: labelSchema.meta({ description: 'Whom to call, for the card at the part.' }).optional(),
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
