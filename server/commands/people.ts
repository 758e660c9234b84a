/**
 * `people`: the first administrator of a station, and a way back in where a password was forgotten. Only at the
 * terminal of the machine that keeps the record: whoever can write there owns the station anyway.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Book, openBook } from '../people/book.ts';
import { peopleFileOf } from '../people/file.ts';
import { addPerson, changePerson, everybody, personByName } from '../people/people.ts';
import { passwordWeakness, type ScryptCost, scryptCost } from '../people/secret.ts';
import { createSecrets } from '../people/secrets-kept.ts';
import { nameSchema } from '../weld/text.ts';
import { listText } from '../wording/list.ts';
import { readArguments, refuse } from './arguments.ts';
import { askSecret } from './ask-secret.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';

const help = `people add-administrator --data DIR --name NAME
people set-password --data DIR --name NAME
people list --data DIR

Who may act at the station that keeps its record in DIR. From the first administrator on, nobody acts there
without having signed on; everybody may still look. Administrators add the others on the page People.

  add-administrator  adds one. Asks for a password, twice, and does not show it
  set-password       gives somebody who is known a new password, where the old one was forgotten
  list               names and roles
  --data DIR         the folder of the record, as given to serve
  --name NAME        the name as it is to stand in the record
  --help             this page

People and what they sign on with are kept in DIR.people.sqlite, beside the folder of the record and not in it:
copying the record takes nothing of it along. May run beside a station, which knows of it at once.

Exit status: 0 done, 3 bad input or not possible.

Example: npm run -s ledger -- people add-administrator --data data --name "Runa Teld"`;

const who = 'the command line';

/** With the asking and the cost of a hash handed in, so that a test can hand in others. */
export const peopleWith = (ask: (question: string) => Promise<string | undefined>, cost: ScryptCost): Command => {
  const command: Command = {
    name: 'people',
    summary: 'who may act at a station: its first administrator',
    help,
    async run(args, terminal) {
      const asked = readArguments(command, { data: { type: 'string' }, name: { type: 'string' } }, args, terminal);
      if (typeof asked === 'number') return asked;
      const { values, positionals } = asked;
      const [deed, ...rest] = positionals;
      if (deed === undefined || rest.length > 0 || !deeds.includes(deed))
        return refuse(command, `say which: ${deeds.join(', ')}`, terminal);
      if (values.data === undefined) return refuse(command, 'say with --data where the record is kept', terminal);
      if (!existsSync(join(values.data, 'record.sqlite')))
        return refuse(command, `there is no record in ${values.data}; begin it first with serve --begin`, terminal);
      const name = nameSchema.safeParse(values.name);
      if (deed !== 'list' && !name.success) return refuse(command, 'say with --name who it is', terminal);
      const file = peopleFileOf(values.data);
      if (deed === 'list' && !existsSync(file)) {
        terminal.out('Nobody: names are taken as they are typed.');
        return exitStatus.done;
      }
      try {
        const book = openBook({ file, now: Date.now });
        try {
          return deed === 'list' ? list(book, terminal) : await giveIn(deed, book, name.data!, terminal);
        } finally {
          book.close();
        }
      } catch (cause) {
        terminal.err(`people: ${cause instanceof Error ? cause.message : String(cause)}`);
        return exitStatus.failed;
      }
    },
  };
  return command;

  async function giveIn(deed: string, book: Book, name: string, terminal: Terminal): Promise<number> {
    const known = personByName(book, name);
    if (deed === 'add-administrator' && known?.roles.includes('administrator') === true)
      return refuse(command, `${known.name} is an administrator already; set-password gives a new password`, terminal);
    if (deed === 'set-password' && known === undefined)
      return refuse(command, `nobody here is called ${name}; list shows who is`, terminal);
    const password = await chosen(known?.name ?? name, terminal);
    if (password === undefined) return exitStatus.failed;
    const person = deed === 'add-administrator' ? asAdministrator(book, name) : known!;
    await createSecrets(book, cost).set(person, 'password', password, who);
    terminal.out(`${person.name} can sign on with that password now, as ${listText(person.roles)}.`);
    return exitStatus.done;
  }

  async function chosen(name: string, terminal: Terminal): Promise<string | undefined> {
    const password = await ask(`Password for ${name}: `);
    if (password === undefined) {
      terminal.err('people: nothing was changed. A password is asked for at a terminal, where nobody else reads it.');
      return undefined;
    }
    const weakness = passwordWeakness(password, name);
    if (weakness !== undefined) {
      terminal.err(`people: nothing was changed. This password is weak; allowed: ${weakness}.`);
      return undefined;
    }
    if ((await ask('The same again: ')) === password) return password;
    terminal.err('people: nothing was changed. The two are not the same.');
    return undefined;
  }
};

const deeds = ['add-administrator', 'set-password', 'list'];

/** Somebody who is known becomes one; else a new person. */
function asAdministrator(book: Book, name: string) {
  const known = personByName(book, name);
  return known === undefined
    ? addPerson(book, { name, roles: ['administrator'] }, who)
    : changePerson(book, known.id, { ...known, roles: [...known.roles, 'administrator'] }, who);
}

function list(book: Book, terminal: Terminal): number {
  for (const { name, roles, active } of everybody(book))
    terminal.out(`${name}: ${listText(roles)}${active ? '' : ' (works here no more)'}`);
  return exitStatus.done;
}

export const people: Command = peopleWith(askSecret, scryptCost);
