/** The joint to be preheated: what stands in a joint file, and in the first entry of its record. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { unitSystems } from '../measure/units.ts';
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

export const partForms = ['plate', 'tube', 'bar'] as const;

/** P-numbers of ASME IX that the tables of the piping codes know. */
export const pNumbers = [
  '1',
  '3',
  '4',
  '5A',
  '5B',
  '5C',
  '6',
  '7',
  '8',
  '9A',
  '9B',
  '10H',
  '10I',
  '11A-1',
  '11A-2',
  '15E',
  '41',
  '42',
  '43',
  '44',
  '45',
] as const;

/** Kinds of material for which limits upward, cooling and waiting times are published or practised. */
export const materialKinds = [
  'C-Mn and fine grain',
  'quenched and tempered 690',
  'quenched and tempered 890 to 960',
  'Cr-Mo',
  '13Cr martensitic',
  '9Cr-1Mo-V',
  'ferritic stainless',
  'austenitic',
  'duplex',
  'nickel alloy',
] as const;

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
    form: z.enum(partForms).meta({ description: 'Plate, tube or solid bar; absent counts as plate.' }).optional(),
    outsideDiameterMillimetres: z.number().positive().max(20_000).optional(),
    kind: z.enum(materialKinds).meta({ description: 'Kind of material, for limits that go by it.' }).optional(),
    yieldMegapascals: z
      .number()
      .positive()
      .max(2000)
      .meta({ description: 'Specified minimum yield strength.' })
      .optional(),
    tensileMegapascals: z
      .number()
      .positive()
      .max(2500)
      .meta({ description: 'Specified minimum tensile strength; the piping tables ask for it.' })
      .optional(),
    pNumber: z.enum(pNumbers).meta({ description: 'P-number of ASME IX, without the P.' }).optional(),
    awsCategory: z
      .enum(['A', 'B', 'C', 'D'])
      .meta({ description: 'Category of steel and process in the prequalified table of AWS D1.1.' })
      .optional(),
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
    z.strictObject({
      instantaneousJoules: z
        .number()
        .positive()
        .max(1e9)
        .meta({ description: 'Instantaneous energy that a waveform-controlled source shows for the bead.' }),
      beadMillimetres: z.number().positive().max(100_000),
    }),
    z.strictObject({
      instantaneousWatts: z
        .number()
        .positive()
        .max(1e6)
        .meta({ description: 'Instantaneous power that a waveform-controlled source shows.' }),
      millimetresPerSecond: z.number().positive().max(500).meta({ description: 'Travel speed.' }),
    }),
    z.literal('not stated'),
  ])
  .meta({ description: 'Heat input of the pass that brings least.' });

export const consumableSchema = z.strictObject({
  designation: labelSchema.optional(),
  hydrogen: hydrogenSchema,
  deposit: z
    .enum(['ferritic', 'austenitic', 'nickel'])
    .meta({ description: 'Kind of weld metal; absent counts as ferritic. Hydrogen methods hold for ferritic only.' })
    .optional(),
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

export const codeSets = ['EN 1011-2', 'AWS D1.1', 'ASME B31.3:2014', 'ASME B31.3:2010', 'ASME B31.1'] as const;
export type CodeSet = (typeof codeSets)[number];

/** What a person read off a chart that no formula gives: which chart, with what, and what it said. */
export const chartReadingSchema = z
  .strictObject({
    method: nameSchema.meta({ description: 'For instance "EN 1011-2 method A".' }),
    chart: nameSchema.meta({ description: 'Figure, page or curve that was read, with its edition.' }),
    scale: nameSchema.meta({ description: 'Hydrogen scale or curve within the chart.' }).optional(),
    part: nameSchema.meta({ description: 'Part it was read for; absent: for the whole joint.' }).optional(),
    combinedThicknessMillimetres: z.number().positive().max(6000).optional(),
    heatInputKilojoulesPerMillimetre: z.number().positive().max(50).optional(),
    carbonEquivalentPercent: z.number().positive().max(5).optional(),
    preheatMinimumCelsius: z.number().min(-50).max(900),
    role: z.enum(['may govern', 'comparison only']),
  })
  .meta({ id: 'ChartReading', description: 'A minimum preheat read off a published chart by a person.' });
export type ChartReading = z.infer<typeof chartReadingSchema>;

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
      .strictObject({ celsius: z.number().min(20).max(700), hours: z.number().positive().max(1000) })
      .meta({ description: 'Post-heating (hydrogen release) that the procedure asks for.' })
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
