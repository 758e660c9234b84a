/**
 * What is entered of a pass: its start, its end, and details of it that were not at hand then. Numbers of the arc stand
 * with the end as a rule; what comes later is an entry of its own and fills only what was left open.
 */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { happenedAt } from './happened-at.ts';
import { qualificationSchema } from './qualification.ts';
import { labelSchema, nameSchema, textSchema } from './text.ts';
import { arcSchemas, processes } from './welding.ts';

export const passKinds = [
  'tack',
  'root',
  'fill',
  'cap',
  'temper bead',
  'attachment',
  'gouging',
  'thermal cutting',
] as const;
export type PassKind = (typeof passKinds)[number];

const filled = labelSchema.min(1);

/** Known when the arc is struck. */
const setUpShape = {
  layer: nameSchema.optional(),
  batch: filled.meta({ description: 'Consumable as welded: designation and batch.' }).optional(),
  process: z
    .enum(processes)
    .meta({ description: 'ISO 4063 reference number of this pass; absent: the process of the joint.' })
    .optional(),
  revolutionSeconds: z
    .number()
    .min(1)
    .max(100_000)
    .meta({ description: 'Of a turning part: the time of one revolution.' })
    .optional(),
};

/** Known when the arc is out. Travel is a speed, or the length of the run and the time that the arc burnt for it. */
const runShape = {
  volts: arcSchemas.volts.optional(),
  amperes: arcSchemas.amperes.optional(),
  millimetresPerSecond: arcSchemas.millimetresPerSecond.optional(),
  runOutMillimetres: arcSchemas.runOutMillimetres.optional(),
  arcSeconds: arcSchemas.arcSeconds.optional(),
  instantaneousJoules: arcSchemas.instantaneousJoules.optional(),
  stops: filled.meta({ description: 'Where the run was stopped and taken up again.' }).optional(),
};

const side = z.enum(['A', 'B']).optional();
const where = labelSchema.optional();

const passDetailsShape = { side, where, ...setUpShape, ...runShape };
const detailsSchema = z.strictObject(passDetailsShape);
/** What is known of a pass beside its name, its kind, its welder and its times. */
export type PassDetails = z.infer<typeof detailsSchema>;
export const detailFields = Object.keys(passDetailsShape) as readonly (keyof PassDetails)[];

export const passStartSchema = z.strictObject({
  kind: z.literal('pass start'),
  pass: nameSchema,
  passKind: z.enum(passKinds),
  welder: nameSchema,
  side,
  where,
  ...setUpShape,
  /** Of the welder, as the station knew them then; empty: none. Written by the desk, absent where the station knows nobody. */
  qualifications: z.array(qualificationSchema).max(limits.qualificationsMaximum).optional(),
  happenedAt,
});

export const passEndSchema = z
  .strictObject({ kind: z.literal('pass end'), pass: nameSchema, ...runShape, happenedAt })
  .superRefine(travelOnce);

export const passDetailsSchema = z
  .strictObject({ kind: z.literal('pass details'), pass: nameSchema, ...passDetailsShape })
  .superRefine((details, context) => {
    travelOnce(details, context);
    if (Object.keys(detailsOf(details)).length === 0)
      context.addIssue({ code: 'custom', path: [], message: `at least one of ${detailFields.join(', ')}` });
  });

const instantSchema = z.number().int().positive();

/** A slip put right: the pass by the name it has now, and only what was wrong. The entry that was wrong stays in the record. */
export const passCorrectionSchema = z
  .strictObject({
    kind: z.literal('correct pass'),
    pass: nameSchema,
    struck: z.literal(true).meta({ description: 'No such pass was welded.' }).optional(),
    name: nameSchema.meta({ description: 'The right name or number of the pass.' }).optional(),
    passKind: z.enum(passKinds).optional(),
    welder: nameSchema.optional(),
    startedAt: instantSchema.optional(),
    endedAt: instantSchema.optional(),
    ...passDetailsShape,
    reason: textSchema,
  })
  .superRefine((correction, context) => {
    travelOnce(correction, context);
    const { kind: _kind, pass: _pass, reason: _reason, struck, ...right } = correction;
    const count = Object.values(right).filter((value) => value !== undefined).length;
    if (struck === undefined && count === 0)
      context.addIssue({
        code: 'custom',
        path: [],
        message: 'what is right instead, or struck where there was no such pass',
      });
    if (struck !== undefined && count > 0)
      context.addIssue({ code: 'custom', path: ['struck'], message: 'nothing beside what is right instead' });
  });
export type PassCorrectionAct = z.infer<typeof passCorrectionSchema>;

/** What a pass was entered with, or what a correction changes of it. */
export interface PassFacts extends PassDetails {
  readonly pass?: string;
  readonly passKind?: PassKind;
  readonly welder?: string;
  readonly startedAt?: Instant;
  readonly endedAt?: Instant;
}

/** A correction as it was taken in: what stood, and what stands instead. */
export interface PassCorrection {
  readonly by: string;
  readonly role?: string;
  readonly at: Instant;
  readonly reason: string;
  readonly struck?: true;
  /** Of a pass that was struck: all of it. */
  readonly was: PassFacts;
  readonly now: PassFacts;
}

/** Only what is stated, as one object. */
export const detailsOf = (from: PassDetails): PassDetails =>
  Object.fromEntries(detailFields.flatMap((field) => (from[field] === undefined ? [] : [[field, from[field]]])));

function travelOnce(run: Partial<PassDetails>, context: z.RefinementCtx): void {
  if (run.millimetresPerSecond === undefined || run.runOutMillimetres === undefined || run.arcSeconds === undefined)
    return;
  const message = 'nothing beside length and arc time, from which the travel speed follows; or the speed alone';
  context.addIssue({ code: 'custom', path: ['millimetresPerSecond'], message });
}
