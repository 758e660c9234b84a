/** A folder into which another logger writes CSV files: which files, which column is which channel, how its times are written. */
import { z } from 'zod';
import { limits } from '../../measure/limits.ts';
import { boardSchema, channelShape, connectionNameSchema, doubledChannels, periodSchema } from './channel.ts';
import { connectionFormat } from './format.ts';

const columnName = z.string().trim().min(1).max(limits.nameMaximum);

export const folderSchema = z
  .strictObject({
    format: connectionFormat,
    kind: z.literal('csv folder'),
    name: connectionNameSchema,
    board: boardSchema,
    periodMilliseconds: periodSchema,
    folder: z
      .string()
      .trim()
      .min(1)
      .max(1000)
      .meta({ description: 'Full path of the folder on the machine of the station.' }),
    files: z
      .string()
      .trim()
      .min(1)
      .max(200)
      .regex(/^[^/\\*]*\*?[^/\\*]*$/, 'a name, with * once for what differs from file to file, as log-*.csv')
      .meta({ description: 'Names of the files that are read. The one written to last is followed.' }),
    timeColumn: columnName.optional(),
    dateColumn: columnName.optional(),
    headerLine: z.int().min(1).max(1000).optional(),
    /** As in the options of judge: what the files do not say. */
    unit: z.enum(['C', 'F', 'K']).optional(),
    decimal: z.enum(['.', ',']),
    order: z.enum(['year month day', 'day month year', 'month day year']).optional(),
    numbers: z.enum(['elapsed', 'spreadsheet days', 'unix seconds', 'unix milliseconds']).optional(),
    clock: z.enum(['elapsed', 'time of day', 'elapsed h:mm', 'elapsed mm:ss']).optional(),
    channels: z
      .array(z.strictObject({ ...channelShape, column: columnName.meta({ description: 'Its header in the files.' }) }))
      .min(1)
      .max(limits.channelsMaximum),
  })
  .superRefine(({ channels }, context) => {
    for (const doubled of doubledChannels(channels))
      context.addIssue({
        code: 'custom',
        path: ['channels', doubled, 'channel'],
        message: 'a number that no other channel has',
      });
    channels.forEach(({ column }, index) => {
      if (channels.findIndex((other) => other.column === column) < index)
        context.addIssue({
          code: 'custom',
          path: ['channels', index, 'column'],
          message: 'a column that no other channel has',
        });
    });
  })
  .meta({ id: 'CsvFolder', description: 'Files that another logger writes.' });
export type CsvFolder = z.infer<typeof folderSchema>;
