/**
 * Breaks in welding: what the procedure says of them, and what people enter of them. ISO 13916 names the temperature that
 * is kept while welding is interrupted (Tm). No standard says after how many minutes a wait between two passes is a break,
 * nor what is asked for in general before going on, so that nothing of it is assumed: what is not stated is absent.
 */
import { z } from 'zod';
import { happenedAt } from './happened-at.ts';
import { textSchema } from './text.ts';

/** That every place is at the minimum again is asked for before every pass, and needs no word here. */
export const afterBreakAsks = ['soak again', 'inspection'] as const;
export type AfterBreakAsk = (typeof afterBreakAsks)[number];

/** Who may be asked to examine a joint before welding goes on. */
export const inspectionRoles = ['welder', 'inspector', 'coordinator', 'third party'] as const;

/** ISO 9712: visual, magnetic particle, penetrant, ultrasonic, eddy current testing. */
export const examinationMethods = ['VT', 'MT', 'PT', 'UT', 'ET'] as const;
export const examinationResults = ['no indication', 'indication'] as const;

const asks = (description: string) => z.array(z.enum(afterBreakAsks)).max(afterBreakAsks.length).meta({ description });

export const breaksSchema = z
  .strictObject({
    afterMinutes: z
      .number()
      .positive()
      .max(10_000)
      .meta({
        description:
          'Minutes without a pass that are a break. Waiting to cool to the maximum interpass temperature does not count. Absent: a break is one that is declared, or one in which the maintenance temperature is lost.',
      })
      .optional(),
    keptWarm: asks(
      'Asked for before the next pass after a break that stayed warm, beside the minimum, which always is. Absent: nothing more.',
    ).optional(),
    fellBelow: asks(
      'The same after a break in which a place fell below the maintenance temperature, or below the minimum preheat where no maintenance temperature is stated, or of which it is not known. Empty: nothing more. Absent: not stated, and a pass after such a fall cannot be judged.',
    ).optional(),
    inspectedBy: z
      .enum(inspectionRoles)
      .meta({ description: 'Whose inspection counts. Absent: that of anybody who may enter one.' })
      .optional(),
  })
  .meta({ description: 'What counts as a break in welding, and what is asked for before going on.' });

export const breakSchema = z
  .strictObject({
    kind: z.literal('break'),
    state: z.enum(['begun', 'ended']),
    reason: textSchema.meta({ description: 'Needed where it begins.' }).optional(),
    happenedAt,
  })
  .superRefine(({ state, reason }, context) => {
    if (state === 'begun' && reason === undefined)
      context.addIssue({ code: 'custom', path: ['reason'], message: 'the reason for the break, in a few words' });
  });

/** The joint was examined in or after a break, before welding goes on. */
export const breakInspectedSchema = z.strictObject({
  kind: z.literal('break inspected'),
  method: z.enum(examinationMethods),
  result: z.enum(examinationResults),
  note: textSchema.optional(),
  happenedAt,
});

export type BreakAct = z.infer<typeof breakSchema> | z.infer<typeof breakInspectedSchema>;
