/** One part of the joint: its steel, its thickness, and what tables and limits ask of it. */
import { z } from 'zod';
import { analysisSchema } from './composition.ts';
import { sides } from './probe.ts';
import { labelSchema, nameSchema } from './text.ts';

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

/** What lies behind the face that is not heated: how much heat it takes away. */
export const farSides = ['insulated', 'still air', 'draught', 'unknown', 'colder mass or fluid'] as const;
export type FarSide = (typeof farSides)[number];

/** Sets of thermal properties (conduction/steel). */
export const thermalKinds = ['carbon', 'low-alloy', 'chromium', 'austenitic'] as const;
export type ThermalKind = (typeof thermalKinds)[number];

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
    farSide: z
      .enum(farSides)
      .meta({
        description:
          'What lies behind the face that is not heated. Absent or unknown counts as draught; against a colder mass or a fluid only a probe on that face can tell.',
      })
      .optional(),
    conductsAs: z
      .enum(thermalKinds)
      .meta({ description: 'Thermal properties to compute with; absent: by the kind of material, else the analysis.' })
      .optional(),
  })
  .meta({ id: 'Part', description: 'One part of the joint.' });
export type Part = z.infer<typeof partSchema>;
