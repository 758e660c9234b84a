/** What every connected instrument has to say of a channel: which wire it was set to, what a strange value means. */
import { z } from 'zod';
import { limits } from '../../measure/limits.ts';
import { thermocoupleTypes } from '../../measure/thermocouple.ts';
import { nameSchema } from '../text.ts';

/** What an instrument can mean by a value that is no temperature. */
export const faultMeanings = [
  'open',
  'short to ground',
  'short to supply',
  'cold junction out of range',
  'out of range',
  'no reading',
] as const;
export type FaultMeaning = (typeof faultMeanings)[number];

/** Microvolts: the instrument gives the voltage, and the station works out the junction. All others: it gives its own temperature. */
export const givenUnits = ['C', 'F', 'K', 'microvolts'] as const;

export const boardSchema = nameSchema.meta({
  description: 'Name of the instrument, as the probes of a joint state it under board.',
});
export const connectionNameSchema = nameSchema.meta({ description: 'What people call this connection.' });
export const periodSchema = z
  .int()
  .min(200)
  .max(limits.connectionPeriodMaximum)
  .meta({ description: 'How often it is read, or how often it writes, milliseconds.' });

export const channelShape = {
  channel: z.int().min(1).max(limits.channelsMaximum).meta({ description: 'Number under which a probe names it.' }),
  thermocouple: z.enum(thermocoupleTypes).meta({
    description:
      'The type that the instrument itself is set to on this channel. A probe of another type is not read from it.',
  }),
};

/** A value that stands for a fault: as it comes, or beyond a number in the unit of the channel. */
export const boundFaultShape = {
  above: z.number().optional(),
  below: z.number().optional(),
  means: z.enum(faultMeanings),
};

/** Paths of channels whose number was used before. */
export const doubledChannels = (channels: readonly { readonly channel: number }[]): number[] =>
  channels.flatMap(({ channel }, index) =>
    channels.findIndex((other) => other.channel === channel) < index ? [index] : [],
  );
