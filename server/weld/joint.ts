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
import { besideProcedure, boundRevisionSchema } from './procedure-revision.ts';
import { repairSchema } from './repair.ts';
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
const codeFloorSchema = z
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
    /** Register of what is measured with. Absent: nothing is known of it, and readings stand as they came. */
    instruments: z.array(instrumentSchema).max(limits.instrumentsMaximum).optional(),
    procedure: procedureSchema.optional(),
    ...besideProcedure,
    boundRevision: boundRevisionSchema.optional(),
    codeFloor: codeFloorSchema.optional(),
    /** Methods whose calculation the job declares binding, by id (see metallurgy/methods). */
    bindingMethods: z.array(nameSchema).max(20).optional(),
    units: z
      .enum(unitSystems)
      .meta({ description: 'Unit system of the job: how its papers are written, and which bands of a table count.' })
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
    weldSizeMillimetres: z
      .number()
      .positive()
      .max(2000)
      .meta({ description: 'Throat, or depth of penetration; absent: the thickness of the thickest part.' })
      .optional(),
    arcSignal: z
      .strictObject({ board: nameSchema, input: z.number().int().min(1).max(16) })
      .meta({
        description:
          'Digital input that is on while an arc burns at this joint. It proposes passes; absent: passes are entered by hand alone.',
      })
      .optional(),
    repairOf: repairSchema.optional(),
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
