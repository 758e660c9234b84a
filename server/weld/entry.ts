/**
 * Entries of a joint's record. Inputs are folded by the judge; conclusions are what the judge said, kept
 * so that a later judgement can be compared. Text for people is made at the outlets and is not here.
 */

import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { ambientCheckShape } from './ambient-check.ts';
import { breakInspectedSchema, breakSchema, examinationMethods, examinationResults } from './break.ts';
import { checkAnsweredSchema, pointRefusedSchema, pointReleasedSchema, pointWaivedSchema } from './checks.ts';
import type { Connection } from './connection/connection.ts';
import { documentBytesSchema, mediaTypeSchema, sha256Schema } from './document.ts';
import { handOverSchema } from './hand-over.ts';
import { handReadingSchema } from './hand-reading.ts';
import { happenedAt } from './happened-at.ts';
import type { Hole } from './hole.ts';
import type { ImportedFile } from './imported.ts';
import { correctionsSchema, daySchema } from './instrument.ts';
import { type Joint, jointSchema } from './joint.ts';
import {
  type PassCorrection,
  passCorrectionSchema,
  passDetailsSchema,
  passEndSchema,
  passStartSchema,
} from './pass-acts.ts';
import { type Established, personSchema } from './person.ts';
import { placeSchema } from './probe.ts';
import type { Scan } from './scan.ts';
import type { Signed } from './signed.ts';
import { nameSchema, textSchema } from './text.ts';

/** An alarm or a finding by its key as the station gave it. */
const keySchema = z
  .string()
  .min(1)
  .max(4 * limits.nameMaximum);

/** What a named person decided on a finding that needs an answer; `value`: its number as that person saw it. */
export const dispositionSchema = z.strictObject({
  kind: z.literal('disposition'),
  finding: keySchema,
  decision: z.enum(['accept', 'repair', 'reject']),
  value: z.number().int().optional(),
  reason: textSchema,
});
export type DispositionAct = z.infer<typeof dispositionSchema>;

/** What a person may do to a joint. One schema serves the desk (HTTP), events files and the record. */
export const actSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('heat'), state: z.enum(['on', 'off']), happenedAt }),
    passStartSchema,
    passEndSchema,
    /** Fills what was left open; what stands already is corrected, not entered again. */
    passDetailsSchema,
    /** Judged anew as if the pass had been entered so at first. */
    passCorrectionSchema,
    handReadingSchema,
    /** Made again it takes the place of the one before. */
    z.strictObject({ kind: z.literal('ambient check'), ...ambientCheckShape }),
    /** Between two passes, where it is not just a wait. A pass ends it. */
    breakSchema,
    breakInspectedSchema,
    checkAnsweredSchema,
    pointReleasedSchema,
    pointWaivedSchema,
    pointRefusedSchema,
    /** The last arc is out. A pass that begins later takes it back, and all that was counted from it. */
    z.strictObject({ kind: z.literal('welding complete'), happenedAt }),
    z.strictObject({ kind: z.literal('post-heating'), state: z.enum(['begun', 'ended']), happenedAt }),
    z.strictObject({ kind: z.literal('cover'), state: z.enum(['on', 'off']), happenedAt }),
    z.strictObject({ kind: z.literal('heat treatment begun'), happenedAt }),
    z.strictObject({ kind: z.literal('testing begun'), method: nameSchema, happenedAt }),
    /** Where a probe was welded on: ground flush and examined. */
    z.strictObject({
      kind: z.literal('spot examined'),
      probe: nameSchema,
      method: z.enum(examinationMethods),
      result: z.enum(examinationResults),
      happenedAt,
    }),
    z.strictObject({ kind: z.literal('note'), text: textSchema, document: sha256Schema.optional() }),
    handOverSchema,
    z.strictObject({ kind: z.literal('acknowledge'), alarm: keySchema }),
    /** Put aside from its entry on, for so many minutes; for how long at most, the alarm's priority says. */
    z.strictObject({
      kind: z.literal('shelve'),
      alarm: keySchema,
      minutes: z.number().int().min(1).max(limits.shelvingMinutesMaximum),
      reason: textSchema,
    }),
    z.strictObject({ kind: z.literal('unshelve'), alarm: keySchema }),
    z.strictObject({
      kind: z.literal('accept'),
      subject: z.enum(['extended range', 'procedure below calculation']),
      method: nameSchema.optional(),
      reason: textSchema,
    }),
    dispositionSchema,
    /** How far an instrument is off, and how sure that is. Holds from `happenedAt`, which may lie before all readings. */
    z.strictObject({
      kind: z.literal('calibration'),
      instrument: nameSchema,
      certificate: nameSchema,
      calibratedOn: daySchema,
      dueOn: daySchema.optional(),
      corrections: correctionsSchema.optional(),
      happenedAt,
    }),
    /** Whether an instrument keeps its limit, compared with another. Changes nothing in it. */
    z.strictObject({
      kind: z.literal('verification'),
      instrument: nameSchema,
      reference: nameSchema,
      readCelsius: z.number().min(-60).max(1800),
      referenceCelsius: z.number().min(-60).max(1800),
      result: z.enum(['within its limit', 'outside its limit']),
      happenedAt,
    }),
    /** The instrument itself was changed: what a calibration found before holds no longer. */
    z.strictObject({ kind: z.literal('adjustment'), instrument: nameSchema, what: textSchema, happenedAt }),
    z.strictObject({ kind: z.literal('declare source'), statement: textSchema }),
    /** The probe leaves the judgement: what it reads is kept and no longer judged by, until it is trusted again. */
    z.strictObject({ kind: z.literal('distrust probe'), probe: nameSchema, reason: textSchema, happenedAt }),
    z.strictObject({ kind: z.literal('trust probe again'), probe: nameSchema, reason: textSchema, happenedAt }),
    /** The spare answers for the use and the place of the probe; the probe becomes a spare. `place`: where the spare sits, if elsewhere. */
    z.strictObject({
      kind: z.literal('spare takes over'),
      spare: nameSchema,
      probe: nameSchema,
      place: placeSchema.optional(),
      reason: textSchema,
      happenedAt,
    }),
    z.strictObject({
      kind: z.literal('attach'),
      title: nameSchema,
      mediaType: mediaTypeSchema,
      bytes: documentBytesSchema,
      sha256: sha256Schema,
    }),
    z.strictObject({ kind: z.literal('revise'), joint: jointSchema, reason: textSchema }),
    z.strictObject({ kind: z.literal('close'), statement: z.string().max(limits.textMaximum).optional() }),
  ])
  .meta({ id: 'Act', description: "A person's act on a joint." });
export type Act = z.infer<typeof actSchema>;

/** The steps after the last arc. */
export const afterKinds = [
  'welding complete',
  'post-heating',
  'cover',
  'heat treatment begun',
  'testing begun',
  'spot examined',
] as const;
export type AfterAct = Extract<Act, { kind: (typeof afterKinds)[number] }>;

export const namedActSchema = z.strictObject({ who: personSchema, act: actSchema });
/** How the name was established comes from the desk, never from who sends the act. */
export type NamedAct = z.infer<typeof namedActSchema> & { readonly established?: Established };

/** Where the temperatures of a record come from. Only 'measured' is believed without a remark. */
export const sourceKinds = ['measured', 'not verified', 'simulated', 'replayed', 'imported'] as const;
export type SourceKind = (typeof sourceKinds)[number];
export interface Source {
  readonly kind: SourceKind;
  /** In words: which board says so, which file, which port. */
  readonly detail: string;
}

/** What the station itself writes into a joint's chain. */
export type StationEvent =
  | {
      readonly kind: 'opened';
      readonly joint: Joint;
      readonly source: Source;
      /** Expected time between two scans of a probe, milliseconds. */
      readonly periodMilliseconds: number;
      readonly openedBy: string;
      /** Version of this program and SHA-256 of the rules that judged, where known. */
      readonly rules: string;
      readonly station: string;
      /** Of a job that is kept from its logs: from when on it is judged, which lies before it was kept. */
      readonly loggedAt?: Instant;
    }
  | ImportedFile
  | { readonly kind: 'source'; readonly source: Source }
  | { readonly kind: 'period'; readonly board: string; readonly periodMilliseconds: number }
  | {
      readonly kind: 'board';
      readonly board: string;
      readonly boot: number;
      readonly firmware: string;
      readonly simulated: boolean;
      readonly port: string;
      /** How it is read, where it is no board but an instrument that was connected; `firmware` then says so in words. */
      readonly connection?: Connection;
      /** The port on which it was read until now, where it was moved; absent in entries of before. */
      readonly movedFrom?: string;
    }
  /** A second board says the same identity: the one on `port` is not read. */
  | { readonly kind: 'twin'; readonly board: string; readonly port: string; readonly heldOn: string }
  | { readonly kind: 'link'; readonly board: string; readonly state: 'lost' | 'restored'; readonly cause: string }
  | ({ readonly kind: 'hole'; readonly board: string } & Hole)
  | { readonly kind: 'clock'; readonly steppedMilliseconds: number }
  /** The computer slept, or the program stood still, for so long: nothing was heard or judged meanwhile. */
  | { readonly kind: 'suspended'; readonly milliseconds: number }
  | { readonly kind: 'station'; readonly state: 'started' | 'stopped' | 'not recording'; readonly lost?: number };

/** One input to the judge, in the order of the chain. */
export type Input =
  | { readonly type: 'scan'; readonly scan: Scan }
  | (Signed & {
      readonly type: 'act';
      readonly at: Instant;
      readonly act: Act;
      /** Never in a record: the act is not as it was entered, since these came later. */
      readonly corrected?: readonly PassCorrection[];
    })
  | { readonly type: 'station'; readonly at: Instant; readonly event: StationEvent };

/** When the input came in: the judge's clock runs on this, and it never steps back within a chain. */
export const arrival = (input: Input): Instant => (input.type === 'scan' ? input.scan.arrivedAt : input.at);
