/** The command people: the first administrator of a station, who is asked for a password that nobody sees. */
import { existsSync } from 'node:fs';
import { PassThrough } from 'node:stream';
import { expect, test } from 'vitest';
import { askSecret } from '../../../server/commands/ask-secret.ts';
import { peopleWith } from '../../../server/commands/people.ts';
import { openBook } from '../../../server/people/book.ts';
import { peopleFileOf } from '../../../server/people/file.ts';
import { everybody, personByName } from '../../../server/people/people.ts';
import { createSecrets } from '../../../server/people/secrets-kept.ts';
import { cheap, password } from '../../support/people.ts';
import { bench, temporaryFolder } from '../../support/record.ts';

const ran = async (typed: readonly (string | undefined)[], ...args: string[]) => {
  const said: string[] = [];
  const left = [...typed];
  const ask = (question: string): Promise<string | undefined> => {
    said.push(question);
    return Promise.resolve(left.shift());
  };
  const status = await peopleWith(ask, cheap).run(args, {
    out: (text) => said.push(text),
    err: (text) => said.push(text),
  });
  return { status, said: said.join('\n') };
};
const check = async (folder: string, name: string, secret: string) => {
  const book = openBook({ file: peopleFileOf(folder), now: Date.now });
  const answer = await createSecrets(book, cheap).check(personByName(book, name), 'password', secret);
  const all = everybody(book);
  book.close();
  return { answer, all };
};

test('the first administrator is added with a password typed twice, beside the record and while it is open', async () => {
  const { folder } = bench();
  const args = ['add-administrator', '--data', folder, '--name', 'Runa Teld'];
  const { status, said } = await ran([password, password], ...args);
  expect([status, said.includes(password)]).toEqual([0, false]);
  const { answer, all } = await check(folder, 'Runa Teld', password);
  expect(answer).toBe('right');
  expect(all).toMatchObject([{ name: 'Runa Teld', roles: ['administrator'], active: true }]);
  expect((await ran([], 'list', '--data', folder)).said).toBe('Runa Teld: administrator');
  expect(await ran([], ...args)).toMatchObject({ status: 3, said: expect.stringContaining('administrator already') });
});

test('a forgotten password is replaced; somebody who is not known gets none', async () => {
  const { folder } = bench();
  await ran([password, password], 'add-administrator', '--data', folder, '--name', 'Runa Teld');
  const other = 'four green ladders';
  expect((await ran([other, other], 'set-password', '--data', folder, '--name', 'runa teld')).status).toBe(0);
  expect((await check(folder, 'Runa Teld', password)).answer).toBe('wrong');
  expect((await check(folder, 'Runa Teld', other)).answer).toBe('right');
  expect((await ran([other, other], 'set-password', '--data', folder, '--name', 'Odd Varen')).said).toContain(
    'nobody here is called',
  );
});

test.each([
  ['weak', ['short'], 'weak'],
  ['not the same twice', [password, `${password}!`], 'not the same'],
  ['no terminal', [undefined], 'at a terminal'],
])('%s: nothing is made', async (_what, typed, words) => {
  const { folder } = bench();
  const { status, said } = await ran(typed, 'add-administrator', '--data', folder, '--name', 'Runa Teld');
  expect([status, said]).toEqual([3, expect.stringContaining(words)]);
  expect(existsSync(peopleFileOf(folder))).toBe(false);
});

test('a folder without a record is refused, so that a mistyped one does not look guarded', async () => {
  const folder = temporaryFolder();
  for (const args of [
    ['add-administrator', '--data', folder, '--name', 'Runa Teld'],
    ['add-administrator', '--name', 'Runa Teld'],
    ['add-administrator', '--data', folder],
    ['give-up', '--data', folder],
    [],
  ])
    expect((await ran([password, password], ...args)).status).toBe(3);
  expect(existsSync(peopleFileOf(folder))).toBe(false);
});

test('what is typed at the terminal is not shown', async () => {
  const raw: boolean[] = [];
  const input = Object.assign(new PassThrough(), { isTTY: true, setRawMode: (on: boolean) => void raw.push(on) });
  const shown = new PassThrough();
  const asked = askSecret('Password: ', input as never, shown as never);
  input.write('sevem\u007fn slow');
  input.write(' barges\r');
  expect(await asked).toBe(password);
  expect([`${shown.read()}`, raw]).toEqual(['Password: \n', [true, false]]);
  const given = askSecret('Password: ', input as never, shown as never);
  input.write('\u0003');
  expect(await given).toBeUndefined();
  expect(await askSecret('Password: ', new PassThrough() as never, shown as never)).toBeUndefined();
});
