/** The check value at the end of a line: what it is made of and where it stands. */
import { z } from 'zod';

export const checkKinds = ['xor', 'sum', 'crc-16 modbus', 'crc-16 ccitt'] as const;
export type CheckKind = (typeof checkKinds)[number];

export const checkSchema = z
  .strictObject({
    kind: z.enum(checkKinds).meta({ description: 'xor and sum have two hexadecimal digits, the others four.' }),
    behind: z.string().min(1).max(20).meta({ description: 'Text that stands before its digits, as "*".' }),
    countsIt: z.boolean().optional().meta({ description: 'True where that text is counted too.' }),
    from: z.string().min(1).max(20).optional().meta({
      description: 'Text at the beginning of each line that is not counted, as "$".',
    }),
  })
  .meta({
    description: 'Check value at the end of each line: the pattern or the columns describe what stands before it.',
  });
export type LineCheck = z.infer<typeof checkSchema>;
