/**
 * Who works at this station. A person is never deleted, since entries of the record name the id; who has gone is
 * switched off. At least one administrator who can sign on stays, or nobody could add another from the screen.
 */
import { randomBytes } from 'node:crypto';
import { Refusal } from '../desk/refusal.ts';
import { limits } from '../measure/limits.ts';
import { type Role, roles } from '../weld/person.ts';
import { listText } from '../wording/list.ts';
import type { Book } from './book.ts';

export interface PersonKept {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly active: boolean;
}

interface Row {
  readonly id: string;
  readonly name: string;
  readonly roles: string;
  readonly active: number;
}

/** Whether the station knows anybody: from then on nobody acts without having signed on. */
export const anybody = (book: Book): boolean => book.get('SELECT id FROM people LIMIT 1') !== undefined;

export const everybody = (book: Book): readonly PersonKept[] =>
  book.all<Row>('SELECT id, name, roles, active FROM people ORDER BY name').map(personOf);

export const personById = (book: Book, id: string): PersonKept | undefined => {
  const row = book.get<Row>('SELECT id, name, roles, active FROM people WHERE id = ?', id);
  return row === undefined ? undefined : personOf(row);
};

/** Of those who are active; capitals do not matter. */
export const personByName = (book: Book, name: string): PersonKept | undefined =>
  everybody(book).find((each) => each.active && sameName(each.name, name));

export function addPerson(book: Book, { name, roles }: Pick<PersonKept, 'name' | 'roles'>, by: string): PersonKept {
  const all = everybody(book);
  if (all.length >= limits.peopleMaximum)
    throw refusal('name', `${all.length} people`, `at most ${limits.peopleMaximum} at one station`);
  nameIsFree(all, name);
  const id = `p-${randomBytes(4).toString('hex')}`;
  const held = inOrder(roles);
  book.change(by, `added ${name}: ${listText(held)}`, (database) =>
    database.run('INSERT INTO people (id, name, roles, active) VALUES (?, ?, ?, 1)', id, name, JSON.stringify(held)),
  );
  return { id, name, roles: held, active: true };
}

export function changePerson(book: Book, id: string, to: Omit<PersonKept, 'id'>, by: string): PersonKept {
  const before = personById(book, id);
  if (before === undefined) throw refusal('id', id, 'a person of this station');
  const all = everybody(book);
  const others = all.filter((each) => each.id !== id);
  if (to.active) nameIsFree(others, to.name);
  const after = { id, name: to.name, roles: inOrder(to.roles), active: to.active };
  if (!isAdministrator(after) && !others.some((each) => isAdministrator(each) && hasPassword(book, each.id)))
    throw refusal('roles', 'the last administrator', 'this change once another administrator has a password');
  book.change(by, changeText(before, after), (database) =>
    database.run(
      'UPDATE people SET name = ?, roles = ?, active = ? WHERE id = ?',
      after.name,
      JSON.stringify(after.roles),
      after.active ? 1 : 0,
      id,
    ),
  );
  return after;
}

const changeText = (before: PersonKept, after: PersonKept): string =>
  [
    `changed ${before.name}`,
    ...(before.name === after.name ? [] : [`is now called ${after.name}`]),
    ...(listText(before.roles) === listText(after.roles) ? [] : [`may act as ${listText(after.roles)}`]),
    ...(before.active === after.active ? [] : [after.active ? 'works here again' : 'works here no more']),
  ].join('; ');

function nameIsFree(others: readonly PersonKept[], name: string): void {
  if (others.some((each) => each.active && sameName(each.name, name)))
    throw refusal('name', name, 'a name that nobody here has; add what tells the two apart');
}

const isAdministrator = ({ roles, active }: PersonKept): boolean => active && roles.includes('administrator');
const hasPassword = (book: Book, id: string): boolean =>
  book.get("SELECT kind FROM secrets WHERE person = ? AND kind = 'password'", id) !== undefined;

const personOf = ({ id, name, roles: held, active }: Row): PersonKept => ({
  id,
  name,
  roles: inOrder(JSON.parse(held) as Role[]),
  active: active === 1,
});
/** Each once, in the order of the list, whichever way they were ticked. */
const inOrder = (held: readonly Role[]): readonly Role[] => roles.filter((role) => held.includes(role));
const sameName = (one: string, other: string): boolean =>
  one.normalize('NFKC').toLowerCase() === other.normalize('NFKC').trim().toLowerCase();

export const refusal = (field: string, found: string, allowed: string): Refusal =>
  new Refusal([{ field, found, allowed }]);
