/** Who did it. Every act of a person carries one; the station's own entries say 'station'. */
import { z } from 'zod';
import { nameSchema } from './text.ts';

/** What a person is on the job. Which entry each may make stands in duties.ts. */
export const roles = [
  'welder',
  'heater operator',
  'inspector',
  'coordinator',
  'third party',
  'administrator',
  'viewer',
] as const;
export type Role = (typeof roles)[number];

export const personSchema = z
  .strictObject({
    name: nameSchema.meta({ description: 'Name of the person who acts; never empty.' }),
    role: z.enum(roles).optional(),
  })
  .meta({ id: 'Person', description: 'The named person who acts.' });
export type Person = z.infer<typeof personSchema>;

/** How the station came to a name: as somebody typed it, or by what only that person holds. */
export const proofs = ['typed name', 'PIN', 'badge', 'password'] as const;
export type Proof = (typeof proofs)[number];

/** What stands beside a name in the record. Entries of before, and those of an imported log, have neither. */
export interface Established {
  /** Id of the person at this station; it stays where the name changes. */
  readonly person?: string;
  readonly proof?: Proof;
}
