/** People of an invented workshop in a file of their own, on clocks that the test moves; hashing that costs next to nothing. */
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { addPerson, type PersonKept } from '../../server/people/people.ts';
import { createSignOn, type SignOn } from '../../server/people/sign-on.ts';
import type { Role } from '../../server/weld/person.ts';
import { createMovedClock, type MovedClock } from './moved-clock.ts';
import { temporaryFolder } from './record.ts';

export const cheap = { logN: 4, r: 8, p: 1 };
export const password = 'seven slow barges';

export interface PeopleBench {
  readonly file: string;
  readonly clock: MovedClock;
  readonly signOn: SignOn;
  add(name: string, ...roles: Role[]): Promise<PersonKept>;
}

/** `add` gives everybody the same password. */
export function peopleBench(
  clock = createMovedClock(),
  file = join(temporaryFolder(), 'data.people.sqlite'),
): PeopleBench {
  const signOn = createSignOn({ file, now: clock.wall, monotonic: clock.monotonic, cost: cheap });
  onTestFinished(() => signOn.book.close());
  return {
    file,
    clock,
    signOn,
    async add(name, ...roles) {
      const person = addPerson(signOn.book, { name, roles }, 'test');
      await signOn.secrets.set(person, 'password', password, 'test');
      return person;
    },
  };
}
