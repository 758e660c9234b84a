/** Qualifications of welders, as their certificates say. What was withdrawn stays in the list of what was done. */
import { limits } from '../measure/limits.ts';
import { type Qualification, qualificationSchema } from '../weld/qualification.ts';
import type { QualificationKept } from '../weld/sign-on.ts';
import type { Book } from './book.ts';
import { type PersonKept, refusal } from './people.ts';
import { token } from './secret.ts';

export const qualificationsOf = (book: Book, person: string): readonly QualificationKept[] =>
  book
    .all<{ id: string; body: string }>('SELECT id, body FROM qualifications WHERE person = ? ORDER BY id', person)
    .map(({ id, body }) => ({ id, ...qualificationSchema.parse(JSON.parse(body)) }));

/** Adds it, or puts it in the place of the one with that id. */
export function keepQualification(
  book: Book,
  person: PersonKept,
  id: string | undefined,
  qualification: Qualification,
  by: string,
): void {
  const all = qualificationsOf(book, person.id);
  if (id !== undefined && !all.some((each) => each.id === id)) throw unknown(id);
  if (id === undefined && all.length >= limits.qualificationsMaximum)
    throw refusal('(whole)', `${all.length} qualifications`, `at most ${limits.qualificationsMaximum} of one person`);
  const what = id === undefined ? 'entered' : 'changed';
  book.change(by, `${what} the qualification ${qualification.certificate} of ${person.name}`, (database) =>
    database.run(
      'INSERT INTO qualifications (id, person, body) VALUES (?, ?, ?) ON CONFLICT (id) DO UPDATE SET body = excluded.body',
      id ?? `q-${token().slice(0, 8)}`,
      person.id,
      JSON.stringify(qualification),
    ),
  );
}

export function withdrawQualification(book: Book, person: PersonKept, id: string, by: string): void {
  const found = qualificationsOf(book, person.id).find((each) => each.id === id);
  if (found === undefined) throw unknown(id);
  book.change(by, `withdrew the qualification ${found.certificate} of ${person.name}`, (database) =>
    database.run('DELETE FROM qualifications WHERE id = ? AND person = ?', id, person.id),
  );
}

const unknown = (id: string) => refusal('id', id, 'a qualification of this person');
