/**
 * What temperatures are measured with: boards and modules, wire lots and single thermocouples, extension cables,
 * and what is held on by hand. Each with its tolerance, its certificate and what a calibration found.
 *
 * Calibration, verification and adjustment are three different events: a calibration tells how far the instrument
 * is off and how sure that is; a verification tells whether it keeps a limit; an adjustment changes it, so that
 * what was known of it holds no longer.
 */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { thermocoupleTypes } from '../measure/thermocouple.ts';
import { isDay } from './day.ts';
import { nameSchema } from './text.ts';

export const instrumentKinds = [
  'board',
  'module',
  'thermocouple',
  'wire lot',
  'extension cable',
  'contact thermometer',
  'crayon',
  'pyrometer',
] as const;
export type InstrumentKind = (typeof instrumentKinds)[number];

/** What is held on by hand. */
export const handKinds = ['contact thermometer', 'crayon', 'pyrometer'] as const satisfies readonly InstrumentKind[];
export type HandKind = (typeof handKinds)[number];
export const isHandKind = (kind: InstrumentKind): kind is HandKind => (handKinds as readonly string[]).includes(kind);

export const toleranceClasses = [
  'IEC 60584-1 class 1',
  'IEC 60584-1 class 2',
  'IEC 60584-1 class 3',
  'ASTM E230 standard',
  'ASTM E230 special',
  'IEC 60584-3 class 1',
  'IEC 60584-3 class 2',
] as const;
export type ToleranceClass = (typeof toleranceClasses)[number];

export const daySchema = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'a day as in 2026-03-31')
  .refine(isDay, 'a day of the calendar, as in 2026-03-31');

/** What a certificate says at one temperature. The correction is added to what the instrument reads. */
const correctionSchema = z
  .strictObject({
    atCelsius: z.number().min(-200).max(1800),
    correctionKelvin: z.number().min(-50).max(50).meta({ description: 'Added to the reading.' }),
    expandedKelvin: z.number().positive().max(50).meta({ description: 'Expanded uncertainty U of the certificate.' }),
    coverageFactor: z.number().min(1).max(5).meta({ description: 'Coverage factor k that belongs to U.' }),
  })
  .meta({ id: 'Correction', description: 'One point of a calibration.' });
export type Correction = z.infer<typeof correctionSchema>;

/** In ascending order: between two points the correction runs straight. */
export const correctionsSchema = z
  .array(correctionSchema)
  .max(limits.correctionsMaximum)
  .superRefine((points, context) => {
    points.forEach(({ atCelsius }, index) => {
      const before = points[index - 1];
      if (before === undefined || atCelsius > before.atCelsius) return;
      const message = `above ${before.atCelsius} °C, the point before it; points stand in ascending order`;
      context.addIssue({ code: 'custom', path: [index, 'atCelsius'], message });
    });
  });

const plusMinus = (description: string) => z.number().positive().max(100).meta({ description }).optional();

export const instrumentSchema = z
  .strictObject({
    id: nameSchema,
    kind: z.enum(instrumentKinds),
    board: nameSchema.meta({ description: 'Of a board or module: the identity that the board states.' }).optional(),
    channels: z
      .array(z.number().int().min(1).max(limits.channelsMaximum))
      .min(1)
      .max(limits.channelsMaximum)
      .meta({ description: 'Of a module: the channels of the board that it reads.' })
      .optional(),
    thermocouple: z.enum(thermocoupleTypes).optional(),
    toleranceClass: z.enum(toleranceClasses).optional(),
    maximumErrorKelvin: plusMinus(
      'Largest error as its maker states it, plus or minus; of a board or module without its cold junction.',
    ),
    coldJunctionErrorKelvin: z
      .number()
      .min(0)
      .max(100)
      .meta({
        description:
          'Of a board or module: largest error of its cold junction, plus or minus; 0 where its maker states one error for both.',
      })
      .optional(),
    certificate: nameSchema.optional(),
    calibratedOn: daySchema.optional(),
    dueOn: daySchema.meta({ description: 'Last day on which the calibration holds.' }).optional(),
    corrections: correctionsSchema.optional(),
  })
  .superRefine((instrument, context) => {
    const wrong = (field: string, message: string) => context.addIssue({ code: 'custom', path: [field], message });
    const { kind, board, channels, thermocouple, toleranceClass: tolerance, calibratedOn, dueOn } = instrument;
    const reads = kind === 'board' || kind === 'module';
    const isWire = kind === 'thermocouple' || kind === 'wire lot';
    if (reads && board === undefined) wrong('board', `the identity that the board states, since this is a ${kind}`);
    if (kind === 'module' && channels === undefined) wrong('channels', 'the channels of the board that it reads');
    if (!reads && board !== undefined) wrong('board', `nothing: a ${kind} is no board`);
    if (kind !== 'module' && channels !== undefined) wrong('channels', 'nothing: only a module reads some channels');
    if ((isWire || kind === 'extension cable') && thermocouple === undefined)
      wrong('thermocouple', `the letter of its type, since this is a ${kind}`);
    if (tolerance !== undefined && !classesOf(kind).includes(tolerance)) {
      const allowed = classesOf(kind).join(', ');
      wrong('toleranceClass', allowed === '' ? `nothing: a ${kind} has no such class` : `one of ${allowed}`);
    }
    if (calibratedOn !== undefined && dueOn !== undefined && dueOn < calibratedOn)
      wrong('dueOn', `on or after ${calibratedOn}, the day of the calibration`);
  })
  .meta({ id: 'Instrument', description: 'What temperatures are measured with, and how well.' });
export type Instrument = z.infer<typeof instrumentSchema>;

function classesOf(kind: InstrumentKind): readonly ToleranceClass[] {
  if (kind === 'extension cable') return toleranceClasses.filter((each) => each.startsWith('IEC 60584-3'));
  if (kind !== 'thermocouple' && kind !== 'wire lot') return [];
  return toleranceClasses.filter((each) => !each.startsWith('IEC 60584-3'));
}
