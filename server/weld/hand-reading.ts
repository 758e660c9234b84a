/**
 * A reading taken by hand, with what it was taken with. A contact thermometer shows a value. A crayon melts or does
 * not: it shows that the part is at or above its temperature, or below it, and no value. A pyrometer shows what the
 * emissivity set on it makes of the radiation.
 */
import { z } from 'zod';
import { happenedAt } from './happened-at.ts';
import { handKinds } from './instrument.ts';
import { placeSchema } from './probe.ts';
import { nameSchema } from './text.ts';

/** What a crayon shows of the temperature it is made for. */
const bounds = ['at least', 'below'] as const;
export type Bound = (typeof bounds)[number];

/** A pyrometer for steel is set between these; outside them the setting is mistyped. */
export const emissivityLowest = 0.1;
export const emissivityHighest = 1;

export const handReadingSchema = z
  .strictObject({
    kind: z.literal('contact reading'),
    celsius: z
      .number()
      .min(-60)
      .max(1400)
      .meta({ description: 'What it shows; of a crayon the temperature that it is made for.' }),
    instrument: nameSchema,
    instrumentKind: z.enum(handKinds).meta({ description: 'Absent in records of before.' }).optional(),
    shows: z
      .enum(bounds)
      .meta({ description: 'Of a crayon, needed: at least where it melted, below where it did not.' })
      .optional(),
    emissivity: z
      .number()
      .min(emissivityLowest)
      .max(emissivityHighest)
      .meta({ description: 'Of a pyrometer, needed: the emissivity that is set on it.' })
      .optional(),
    probe: nameSchema
      .meta({ description: 'The probe that it was held beside, to be compared with; absent where it was none.' })
      .optional(),
    use: z.enum(['interpass', 'zone', 'opposite face']),
    place: placeSchema,
    happenedAt,
  })
  .superRefine(({ instrumentKind: kind, shows, emissivity }, context) => {
    const wrong = (field: string, message: string) => context.addIssue({ code: 'custom', path: [field], message });
    if (kind === 'crayon' && shows === undefined)
      wrong('shows', '"at least" where the crayon melted, "below" where it did not');
    if (kind !== 'crayon' && shows !== undefined) wrong('shows', 'nothing: only a crayon shows a bound');
    if (kind === 'pyrometer' && emissivity === undefined) wrong('emissivity', 'the emissivity that is set on it');
    if (kind !== 'pyrometer' && emissivity !== undefined)
      wrong('emissivity', 'nothing: only a pyrometer has an emissivity');
  });
export type HandReadingAct = z.infer<typeof handReadingSchema>;
