/**
 * The people of the invented workshop, as a station knows its people: a file of their own beside the record, a badge for
 * each, qualifications of the welders. Each signs on with the badge as the shift begins, and what they enter says so.
 */
import { type Book, openBook } from '../../people/book.ts';
import { peopleFileOf } from '../../people/file.ts';
import { addPerson, type PersonKept } from '../../people/people.ts';
import { keepQualification, qualificationsOf } from '../../people/qualifications.ts';
import { newPassword, type ScryptCost, scryptCost, token } from '../../people/secret.ts';
import { createSecrets } from '../../people/secrets-kept.ts';
import { monthsLater } from '../../weld/day.ts';
import type { Act } from '../../weld/entry.ts';
import type { Established, Person, Role } from '../../weld/person.ts';
import { monthsBetweenConfirmations, type Qualification } from '../../weld/qualification.ts';

/** By what they do on the jobs. */
export const people = {
  welder: { name: 'Jorun Vik', role: 'welder' },
  otherWelder: { name: 'Sanna Rove', role: 'welder' },
  heater: { name: 'Imke Sorel', role: 'heater operator' },
  nextHeater: { name: 'Pelle Austad', role: 'heater operator' },
  inspector: { name: 'Mara Lind', role: 'inspector' },
  coordinator: { name: 'Tove Arnhart', role: 'coordinator' },
  thirdParty: { name: 'Odd Karsen', role: 'third party' },
} as const satisfies Record<string, Person>;

export interface Crew {
  /** How the station came to the name. */
  established(who: Person): Established;
  /** As it goes into the record: the start of a pass with what the station knows of its welder. */
  entered(act: Act): Act;
  /** What the coordinator, who is administrator too, signs on with afterwards. */
  readonly password: string;
}

/** `cost`: of the one hash that is made. */
export async function signOnCrew(folder: string, now: () => number, cost: ScryptCost = scryptCost): Promise<Crew> {
  const book = openBook({ file: peopleFileOf(folder), now });
  try {
    const secrets = createSecrets(book, cost);
    const kept = new Map<string, PersonKept>();
    for (const { name, role } of Object.values(people)) {
      const roles: Role[] = name === people.coordinator.name ? [role, 'administrator'] : [role];
      const person = addPerson(book, { name, roles }, by);
      const badge = token();
      await secrets.set(person, 'badge', badge, by);
      if ((await secrets.check(person, 'badge', badge)) !== 'right') throw new Error(`the badge of ${name} fails`);
      kept.set(name, person);
    }
    const password = newPassword();
    await secrets.set(kept.get(people.coordinator.name)!, 'password', password, by);
    const known = qualificationsAt(book, kept, now());
    return {
      password,
      established: ({ name }) => ({ person: kept.get(name)!.id, proof: 'badge' }),
      entered: (act) =>
        act.kind === 'pass start' ? { ...act, qualifications: [...(known.get(act.welder) ?? [])] } : act,
    };
  } finally {
    book.close();
  }
}

const by = 'the demonstration';

/** One was confirmed last month; the other's lapsed, which the station remarks. */
function qualificationsAt(book: Book, kept: ReadonlyMap<string, PersonKept>, now: number) {
  const today = new Date(now).toISOString().slice(0, 10);
  const ofWelder = (certificate: string, confirmedMonthsAgo: number): Qualification => ({
    standard: 'ISO 9606-1',
    processes: ['135'],
    range: 'butt welds in plate from 3 mm, PA and PC',
    certificate,
    validUntil: monthsLater(today, 14),
    confirmedOn: monthsLater(today, -confirmedMonthsAgo),
    confirmEveryMonths: monthsBetweenConfirmations,
  });
  const entries = [
    [people.welder, ofWelder('WQ-118', 1)],
    [people.otherWelder, ofWelder('WQ-121', monthsBetweenConfirmations + 1)],
  ] as const;
  return new Map<string, readonly Qualification[]>(
    entries.map(([{ name }, qualification]) => {
      const person = kept.get(name)!;
      keepQualification(book, person, undefined, qualification, by);
      return [name, qualificationsOf(book, person.id).map(({ id: _, ...each }) => each)] as const;
    }),
  );
}
