/** Under whose name an entry stands, and how the station came to that name. */
import type { Established, Person } from './person.ts';

export interface Signed extends Established {
  readonly who: string;
  readonly role?: string;
}

/** The name with what stands beside it, and nothing that was not given. */
export const signedOf = ({ who, role, person, proof }: Signed): Signed => ({
  who,
  ...(role === undefined ? {} : { role }),
  ...(person === undefined ? {} : { person }),
  ...(proof === undefined ? {} : { proof }),
});

export const signedBy = ({ name, role }: Person, established: Established = {}): Signed =>
  signedOf({ who: name, ...(role === undefined ? {} : { role }), ...established });
