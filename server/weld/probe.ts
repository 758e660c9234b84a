/** A thermocouple on the part: which wire it comes in on, where it sits, what it answers for. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { thermocoupleTypes } from '../measure/thermocouple.ts';
import { nameSchema } from './text.ts';

/** front: the face toward the welder. back: the face opposite to it. */
export const faces = ['front', 'back'] as const;
/** A and B: the two sides of the groove. */
export const sides = ['A', 'B'] as const;

export const placeSchema = z
  .strictObject({
    part: nameSchema,
    side: z.enum(sides),
    face: z.enum(faces),
    /** From the edge of the groove; 0 is on the weld metal or at its edge. */
    distanceMillimetres: z.number().min(0).max(5000),
    /** Clock position on a pipe, 0 to 12. */
    clock: z.number().min(0).max(12).optional(),
  })
  .meta({ id: 'Place', description: 'Where a temperature is measured.' });
export type Place = z.infer<typeof placeSchema>;

export const probeUses = ['zone', 'interpass', 'opposite face', 'heater control', 'ambient', 'spare'] as const;
export type ProbeUse = (typeof probeUses)[number];

export const probeAttachments = [
  'capacitor discharge',
  'welded lug',
  'clamp',
  'magnet',
  'under the pad',
  'band',
] as const;

/** Leaves a spot on the part where hard metal and cracks can be. */
export const isWeldedOn = ({ attachedBy }: Probe): boolean =>
  attachedBy === 'capacitor discharge' || attachedBy === 'welded lug';

export const probeSchema = z
  .strictObject({
    id: nameSchema,
    /** Identity that the board states in its hello; for an imported log, any name. */
    board: nameSchema,
    channel: z.number().int().min(1).max(limits.channelsMaximum),
    thermocouple: z.enum(thermocoupleTypes),
    use: z.enum(probeUses),
    place: placeSchema.optional(),
    wire: nameSchema
      .meta({ description: 'Id of the wire lot or thermocouple that it is made of, in the register of instruments.' })
      .optional(),
    extension: nameSchema
      .meta({
        description: 'Id of its extension cable in the register, or "none" where its own wire goes to the board.',
      })
      .optional(),
    attachedBy: z
      .enum(probeAttachments)
      .meta({ description: 'How the tip is held. A welded one leaves a spot that is ground and examined afterwards.' })
      .optional(),
    attachmentErrorKelvin: z
      .number()
      .min(0)
      .max(50)
      .meta({
        description:
          'How far the fixing of the tip can put the reading off, plus or minus. A welded wire conducts heat away (about 1 K at 150 °C for 0.5 mm on carbon steel); a clamped tip is worse.',
      })
      .optional(),
  })
  .superRefine((probe, context) => {
    const needsPlace = probe.use === 'zone' || probe.use === 'interpass' || probe.use === 'opposite face';
    if (needsPlace && probe.place === undefined) {
      context.addIssue({
        code: 'custom',
        path: ['place'],
        message: `a probe used for "${probe.use}" needs its place on the part`,
      });
    }
  })
  .meta({ id: 'Probe', description: 'One thermocouple: wire, place, use.' });
export type Probe = z.infer<typeof probeSchema>;
