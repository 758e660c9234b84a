/** Who did it. Every act of a person carries one; the station's own entries say 'station'. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';

export const roles = ['welder', 'heater operator', 'inspector', 'coordinator', 'third party'] as const;

export const personSchema = z
  .strictObject({
    name: z.string().trim().min(1, 'say who: a name is needed').max(limits.nameMaximum),
    role: z.enum(roles).optional(),
  })
  .meta({ id: 'Person', description: 'The named person who acts.' });
export type Person = z.infer<typeof personSchema>;
