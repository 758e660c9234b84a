/** An instrument that prints lines of text: how a line is written, which place in it is which channel, what is sent to ask for it. */
import { z } from 'zod';
import { limits } from '../../measure/limits.ts';
import {
  boardSchema,
  boundFaultShape,
  channelShape,
  connectionNameSchema,
  doubledChannels,
  periodSchema,
} from './channel.ts';
import { checkSchema } from './check.ts';
import { connectionFormat } from './format.ts';
import { type Piece, piecesOf } from './pattern.ts';
import { addressShape, serialShape } from './serial.ts';

const lineUnits = ['C', 'F', 'K', 'beside each value', 'microvolts'] as const;

const faultSchema = z
  .strictObject({
    text: z.string().trim().min(1).max(limits.nameMaximum).optional(),
    ...boundFaultShape,
  })
  .refine(({ text, above, below }) => [text, above, below].filter((each) => each !== undefined).length === 1, {
    message: 'one of text, above and below: what the instrument writes in place of a temperature',
  });

const sentSchema = z
  .string()
  .min(1)
  .max(200)
  .refine(
    (text) => [...text].every((letter) => letter.charCodeAt(0) < 127),
    'letters without accents, and \\r \\n for the ends of lines',
  )
  .meta({ description: 'As it is sent, with its line end: "READ?\\r\\n".' });

const channelSchema = z.strictObject({
  ...channelShape,
  column: z
    .int()
    .min(1)
    .max(100)
    .meta({ description: 'With a separator: the place in the line, the first is 1.' })
    .optional(),
});

const common = {
  format: connectionFormat,
  kind: z.literal('text lines'),
  name: connectionNameSchema,
  board: boardSchema,
  periodMilliseconds: periodSchema,
  lineEnd: z
    .enum(['LF', 'CR'])
    .meta({ description: 'The character that ends a line; LF serves for CR LF too. LF if not given.' })
    .optional(),
  begin: sentSchema.optional().meta({ description: 'Sent once when the port is open.' }),
  query: sentSchema.optional().meta({ description: 'Sent each period where the instrument speaks only when asked.' }),
  separator: z
    .union([z.enum(['tab', 'blanks']), z.string().length(1)])
    .meta({ description: 'What stands between columns: one character, "tab", or "blanks" for any number of spaces.' })
    .optional(),
  beginsWith: z
    .string()
    .min(1)
    .max(limits.nameMaximum)
    .meta({ description: 'With a separator: lines that begin otherwise are passed over.' })
    .optional(),
  pattern: z
    .string()
    .min(1)
    .max(300)
    .meta({
      description:
        'The line with places in braces: {1} value of channel 1, {channel} and {value} where the line names its channel, {cold} cold junction, {*} anything. Blanks fit any number of blanks.',
    })
    .optional(),
  check: checkSchema.optional(),
  coldJunctionColumn: z.int().min(1).max(100).optional(),
  unit: z.enum(lineUnits),
  decimal: z.enum(['.', ',']),
  faults: z.array(faultSchema).max(40).optional(),
  channels: z.array(channelSchema).min(1).max(limits.channelsMaximum),
};

const check = (connection: Common, context: z.RefinementCtx): void => {
  const wrong = (path: (string | number)[], message: string): void =>
    context.addIssue({ code: 'custom', path, message });
  const { separator, pattern, channels, unit, decimal } = connection;
  for (const doubled of doubledChannels(channels))
    wrong(['channels', doubled, 'channel'], 'a number that no other channel has');
  if ((separator === undefined) === (pattern === undefined)) {
    wrong(['pattern'], 'either separator, with a column for each channel, or pattern; one of the two');
    return;
  }
  if (pattern !== undefined) {
    for (const [path, message] of patternProblems(pattern, connection)) wrong(path, message);
    return;
  }
  channels.forEach(({ column }, index) => {
    if (column === undefined)
      wrong(['channels', index, 'column'], 'the place of this channel in the line; the first column is 1');
    else if (channels.findIndex((other) => other.column === column) < index)
      wrong(['channels', index, 'column'], 'a column that no other channel has');
  });
  if (separator === decimal) wrong(['separator'], 'another character than the decimal mark');
  if (unit === 'microvolts' && connection.coldJunctionColumn === undefined)
    wrong(['coldJunctionColumn'], 'the column of the cold junction, in °C: without it a voltage is no temperature');
};

type Common = z.infer<z.ZodObject<typeof common>>;

export const linesSchema = z
  .strictObject({ ...common, ...serialShape, dataBits: z.literal([7, 8]).meta({ description: 'Mostly 8.' }) })
  .superRefine(check)
  .meta({ id: 'TextLines', description: 'An instrument that prints lines on a serial port.' });
export const networkLinesSchema = z
  .strictObject({ ...common, ...addressShape })
  .superRefine(check)
  .meta({ id: 'NetworkTextLines', description: 'An instrument that prints lines at a network address.' });

export type TextLines = z.infer<typeof linesSchema> | z.infer<typeof networkLinesSchema>;

function patternProblems(pattern: string, { channels, unit }: Common): [path: (string | number)[], message: string][] {
  const pieces = piecesOf(pattern);
  if (typeof pieces === 'string') return [[['pattern'], pieces]];
  const found: [(string | number)[], string][] = [];
  const places = pieces
    .filter((piece): piece is Exclude<Piece, string> => typeof piece !== 'string')
    .map(({ place }) => place);
  const named = places.filter((place) => typeof place === 'number');
  const names = places.includes('channel') || places.includes('value');
  if (names && (!places.includes('channel') || !places.includes('value') || named.length > 0))
    found.push([['pattern'], '{channel} and {value} together, and no numbered place beside them']);
  if (!names && named.length === 0) found.push([['pattern'], 'at least one place for a value, as {1}']);
  channels.forEach(({ channel }, index) => {
    if (!names && !named.includes(channel))
      found.push([['channels', index, 'channel'], `a place {${channel}} in the pattern`]);
  });
  for (const place of named) {
    if (!channels.some(({ channel }) => channel === place))
      found.push([['pattern'], `no place {${place}} without a channel ${place} under channels`]);
  }
  if (unit === 'microvolts' && !places.includes('cold'))
    found.push([['pattern'], 'a place {cold} for the cold junction, in °C: without it a voltage is no temperature']);
  return found;
}
