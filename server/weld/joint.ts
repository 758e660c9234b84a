/** The joint to be preheated: what stands in a joint file, and in the first entry of its record. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { analysisSchema } from './composition.ts';
import { faces, probeSchema, sides } from './probe.ts';
import { procedureSchema } from './procedure.ts';

const name = z.string().trim().min(1).max(limits.nameMaximum);

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
    id: name,
    /** Which side of the groove it forms; both where one part is repaired or built up. */
    side: z.union([z.enum(sides), z.literal('both')]),
    grade: z.string().max(limits.nameMaximum).optional(),
    thicknessMillimetres: z.number().positive('thickness must be above 0 mm').max(2000),
    /** All analyses known; the one that asks for most governs. */
    analyses: z.array(analysisSchema).max(8),
  })
  .meta({ id: 'Part', description: 'One part of the joint.' });
export type Part = z.infer<typeof partSchema>;

/** ISO 3690 diffusible hydrogen of the deposited metal, or the class that the consumable is certified to. */
export const hydrogenSchema = z.union([
  z.strictObject({ millilitresPer100Grams: z.number().positive().max(100) }),
  z.strictObject({ class: z.enum(['H2', 'H4', 'H5', 'H8', 'H10', 'H15', 'H16']) }),
  z.literal('not stated'),
]);

export const heatInputSchema = z.union([
  z.strictObject({ kilojoulesPerMillimetre: z.number().positive().max(50) }),
  z.strictObject({
    volts: z.number().positive().max(200),
    amperes: z.number().positive().max(5000),
    millimetresPerSecond: z.number().positive().max(500),
  }),
  z.literal('not stated'),
]);

export const consumableSchema = z.strictObject({
  designation: z.string().max(limits.nameMaximum).optional(),
  hydrogen: hydrogenSchema,
  /** Analysis of the all-weld metal; method B compares its CET with the parent metal's. */
  weldMetal: analysisSchema.optional(),
});

export const heatingSchema = z.strictObject({
  means: z.enum(['resistance pads', 'induction', 'gas torch', 'infrared', 'furnace', 'other']),
  face: z.union([z.enum(faces), z.literal('both')]),
  whileWelding: z.enum(['on', 'off']),
});

/** A floor that the construction code makes mandatory, entered with its source. */
export const codeFloorSchema = z.strictObject({
  preheatMinimumCelsius: z.number().min(-50).max(900),
  source: name,
});

export const jointSchema = z
  .strictObject({
    format: z.literal('preheat joint 1'),
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'use small letters, digits and hyphens, at most 60'),
    title: name,
    workshop: name.optional(),
    drawing: z.string().max(limits.nameMaximum).optional(),
    jointType: z.enum(jointTypes),
    parts: z.array(partSchema).min(1).max(limits.partsMaximum),
    consumable: consumableSchema,
    process: z.enum(processes),
    heatInput: heatInputSchema,
    heating: heatingSchema,
    probes: z.array(probeSchema).max(limits.probesMaximum),
    procedure: procedureSchema.optional(),
    codeFloor: codeFloorSchema.optional(),
    /** Methods whose calculation the job declares binding, by id (see metallurgy/methods). */
    bindingMethods: z.array(name).max(20).optional(),
  })
  .superRefine((joint, context) => {
    const parts = new Set(joint.parts.map((part) => part.id));
    if (parts.size !== joint.parts.length) {
      context.addIssue({ code: 'custom', path: ['parts'], message: 'two parts have the same id' });
    }
    const wires = new Map<string, string>();
    const ids = new Set<string>();
    joint.probes.forEach((probe, index) => {
      if (ids.has(probe.id)) {
        context.addIssue({
          code: 'custom',
          path: ['probes', index, 'id'],
          message: `the probe id ${probe.id} is used twice`,
        });
      }
      ids.add(probe.id);
      const wire = `${probe.board} channel ${probe.channel}`;
      const other = wires.get(wire);
      if (other !== undefined) {
        context.addIssue({
          code: 'custom',
          path: ['probes', index, 'channel'],
          message: `${wire} already carries probe ${other}`,
        });
      }
      wires.set(wire, probe.id);
      if (probe.place !== undefined && !parts.has(probe.place.part)) {
        context.addIssue({
          code: 'custom',
          path: ['probes', index, 'place', 'part'],
          message: `there is no part "${probe.place.part}"; parts are ${[...parts].join(', ')}`,
        });
      }
    });
  })
  .meta({ id: 'Joint', title: 'Joint to be preheated' });
export type Joint = z.infer<typeof jointSchema>;
