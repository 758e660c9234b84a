/** The file of the people: who is in it, what they sign on with, and that no secret stands in it. */
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { openBook } from '../../../server/people/book.ts';
import { peopleFileOf } from '../../../server/people/file.ts';
import { addPerson, anybody, changePerson, everybody, personByName } from '../../../server/people/people.ts';
import { screenOf, trustScreen } from '../../../server/people/screens.ts';
import {
  hashOf,
  matches,
  newPassword,
  newPin,
  passwordWeakness,
  pinWeakness,
  scryptCost,
} from '../../../server/people/secret.ts';
import { createSecrets } from '../../../server/people/secrets-kept.ts';
import { createSessions } from '../../../server/people/sessions.ts';
import { createMovedClock } from '../../support/moved-clock.ts';
import { cheap, password, peopleBench } from '../../support/people.ts';
import { temporaryFolder } from '../../support/record.ts';

test('the file stands beside the folder of the record, is begun with the first person, and is for its owner only', async () => {
  const folder = temporaryFolder();
  const file = peopleFileOf(join(folder, 'data/'));
  expect([dirname(file), basename(file)]).toEqual([folder, 'data.people.sqlite']);
  const { signOn, add } = peopleBench(undefined, file);
  expect([anybody(signOn.book), existsSync(file)]).toEqual([false, false]);
  await add('Runa Teld', 'administrator');
  expect(anybody(signOn.book)).toBe(true);
  if (process.platform !== 'win32')
    for (const name of readdirSync(folder))
      expect([name, statSync(join(folder, name)).mode & 0o077]).toEqual([name, 0]);
});

test('a person added by another program is known at once', async () => {
  const { signOn, file } = peopleBench();
  const other = openBook({ file, now: () => 0 });
  addPerson(other, { name: 'Runa Teld', roles: ['administrator'] }, 'the command line');
  other.close();
  expect(everybody(signOn.book).map(({ name }) => name)).toEqual(['Runa Teld']);
});

test('a file that is something else is refused and left as it is', () => {
  const file = join(temporaryFolder(), 'data.people.sqlite');
  writeFileSync(file, 'a list of names, by hand');
  expect(() => openBook({ file, now: () => 0 })).toThrow();
  expect(readFileSync(file, 'utf8')).toBe('a list of names, by hand');
});

test('no password, PIN, badge or token of a screen stands in the file or in its log', async () => {
  const { signOn, add, file } = peopleBench();
  const person = await add('Odd Varen', 'welder');
  await signOn.secrets.set(person, 'PIN', '580314', 'test');
  const badge = 'c0ffee00c0ffee00c0ffee00c0ffee00';
  await signOn.secrets.set(person, 'badge', badge, 'test');
  const screen = trustScreen(signOn.book, 'Bay 2', 'Runa Teld');
  expect(screenOf(signOn.book, screen)?.name).toBe('Bay 2');
  const bytes = readdirSync(dirname(file)).map((name) => readFileSync(join(dirname(file), name)));
  for (const secret of [password, '580314', badge, screen])
    for (const each of bytes) expect(each.includes(secret)).toBe(false);
  expect(
    bytes.some((each) => each.includes('Odd Varen')),
    'the look sees what stands there',
  ).toBe(true);
});

test('two people of one name cannot be told apart, so the second is refused; who left makes room', async () => {
  const { signOn, add } = peopleBench();
  await add('Runa Teld', 'administrator');
  const first = await add('Odd Varen', 'welder');
  await expect(add('odd varen', 'inspector')).rejects.toThrow('a name that nobody here has');
  changePerson(signOn.book, first.id, { ...first, active: false }, 'Runa Teld');
  const second = await add('Odd Varen', 'inspector');
  expect(personByName(signOn.book, 'ODD VAREN')?.id).toBe(second.id);
  expect(() => changePerson(signOn.book, first.id, { ...first, active: true }, 'Runa Teld')).toThrow(
    'a name that nobody',
  );
});

test('the last administrator who can sign on stays', async () => {
  const { signOn, add } = peopleBench();
  const runa = await add('Runa Teld', 'administrator');
  addPerson(signOn.book, { name: 'Without a password', roles: ['administrator'] }, 'test');
  for (const change of [{ active: false }, { roles: ['viewer'] as const }])
    expect(() => changePerson(signOn.book, runa.id, { ...runa, ...change }, 'Runa Teld')).toThrow('last administrator');
  await add('Imke Sorel', 'administrator', 'coordinator');
  expect(changePerson(signOn.book, runa.id, { ...runa, active: false }, 'Imke Sorel').active).toBe(false);
});

test('tries are counted: a pause after some, which ends; a PIN that is wrong too often in a row is withdrawn', async () => {
  const { signOn, add, clock } = peopleBench();
  const { secrets } = signOn;
  const person = await add('Odd Varen', 'welder');
  await secrets.set(person, 'PIN', '580314', 'test');
  const tries = async (count: number) => {
    const answers = await Promise.all(Array.from({ length: count }, () => secrets.check(person, 'PIN', '111222')));
    return answers;
  };
  expect(await tries(limits.signOnTriesBeforePause)).toEqual(Array(limits.signOnTriesBeforePause).fill('wrong'));
  expect(await secrets.check(person, 'PIN', '580314'), 'the right one too').toBe('paused');
  expect(await secrets.check(person, 'password', password), 'another way in is open').toBe('right');
  clock.move(limits.signOnPauseMilliseconds);
  expect(await secrets.check(person, 'PIN', '580314')).toBe('right');
  // A right one begins the count anew.
  for (let left = limits.shortSignOnTriesMaximum; left > 0; left -= limits.signOnTriesBeforePause) {
    await tries(limits.signOnTriesBeforePause);
    clock.move(limits.signOnPauseMilliseconds);
  }
  expect(secrets.kinds(person.id)).toEqual(['password']);
  expect(await secrets.check(person, 'PIN', '580314')).toBe('wrong');
});

test('many tries at once count as many, and what is too much at once is turned away', async () => {
  const { signOn, add } = peopleBench();
  const person = await add('Odd Varen', 'welder');
  const most = limits.secretsCheckedAtOnce + limits.secretsWaitingMaximum;
  const many = await Promise.all(
    Array.from({ length: most + 3 }, () => signOn.secrets.check(undefined, 'password', 'seven quick barges')),
  );
  expect(many.filter((each) => each === 'busy')).toHaveLength(3);
  const guesses = await Promise.all(
    Array.from({ length: 12 }, () => signOn.secrets.check(person, 'password', 'seven quick barges')),
  );
  expect(guesses.filter((each) => each === 'wrong')).toHaveLength(limits.signOnTriesBeforePause);
});

test('a clock that was set back does not leave anybody shut out', async () => {
  const { signOn, add, clock } = peopleBench();
  const person = await add('Odd Varen', 'welder');
  for (let n = 0; n < limits.signOnTriesBeforePause; n += 1) await signOn.secrets.check(person, 'password', 'wrong');
  expect(await signOn.secrets.check(person, 'password', password)).toBe('paused');
  clock.step(-86_400_000);
  expect(await signOn.secrets.check(person, 'password', password)).toBe('right');
});

test('a secret that nobody has costs the same work, and is wrong', async () => {
  expect(await matches('anything', undefined, cheap)).toBe(false);
  const kept = await hashOf('seven slow barges', cheap);
  expect([
    await matches('seven slow barges', kept, scryptCost),
    await matches('seven slow barge', kept, scryptCost),
  ]).toEqual([true, false]);
  expect(await hashOf('seven slow barges', cheap), 'with salt of its own').not.toBe(kept);
  // The same letters, typed on another keyboard as a letter and its accent.
  expect(await matches('Z\u0075\u0308rich', await hashOf('Z\u00fcrich', cheap), cheap)).toBe(true);
});

test('weak passwords and PINs are refused, and those that are made are none', () => {
  for (const weak of ['short', 'aaaaaaaaaaaaaaaa', 'password1234567', 'Odd Varen 1987!', '12345678901234567'])
    expect([weak, passwordWeakness(weak, 'Odd Varen')]).toEqual([weak, expect.any(String)]);
  expect(passwordWeakness(password, 'Odd Varen')).toBeUndefined();
  for (const weak of ['123', '1234', '9876', '0000', '123456789', '12a4'])
    expect([weak, pinWeakness(weak)]).toEqual([weak, expect.any(String)]);
  expect(pinWeakness('5803')).toBeUndefined();
  for (let n = 0; n < 200; n += 1) {
    expect(pinWeakness(newPin())).toBeUndefined();
    expect(passwordWeakness(newPassword(), 'Odd Varen')).toBeUndefined();
  }
});

test('a sign-on ends when nobody touches the screen, sooner where it was by PIN, and after a shift', () => {
  const clock = createMovedClock();
  const sessions = createSessions(clock.monotonic);
  const byPin = sessions.begin({ person: 'p-1', proof: 'PIN' });
  const byPassword = sessions.begin({ person: 'p-2', proof: 'password' });
  clock.move(limits.shortSignOnMilliseconds - 1);
  expect(sessions.left(byPin)).toBe(1);
  sessions.touch(byPin);
  clock.move(limits.shortSignOnMilliseconds);
  expect([sessions.of(byPin), sessions.of(byPassword)?.person]).toEqual([undefined, 'p-2']);
  for (let passed = 0; passed < limits.longestSignOnMilliseconds; passed += 60_000) {
    sessions.touch(byPassword);
    clock.move(60_000);
  }
  expect(sessions.of(byPassword)).toBeUndefined();
});

test('beyond the bound of sign-ons the one that was idle for longest ends', () => {
  const clock = createMovedClock();
  const sessions = createSessions(clock.monotonic);
  const all = Array.from({ length: limits.sessionsMaximum }, (_, n) =>
    sessions.begin({ person: `p-${n}`, proof: 'PIN' }),
  );
  sessions.touch(all[0]);
  sessions.begin({ person: 'one more', proof: 'PIN' });
  expect([sessions.of(all[0])?.person, sessions.of(all[1])]).toEqual(['p-0', undefined]);
});

test('people, screens and secrets have their bounds', async () => {
  const { signOn } = peopleBench();
  for (let n = 0; n < limits.peopleMaximum; n += 1)
    addPerson(signOn.book, { name: `Welder ${n}`, roles: ['welder'] }, 'test');
  expect(() => addPerson(signOn.book, { name: 'One more', roles: ['welder'] }, 'test')).toThrow(
    `at most ${limits.peopleMaximum}`,
  );
  for (let n = 0; n < limits.trustedScreensMaximum; n += 1) trustScreen(signOn.book, `Screen ${n}`, 'test');
  expect(() => trustScreen(signOn.book, 'One more', 'test')).toThrow(`at most ${limits.trustedScreensMaximum}`);
  const [person] = everybody(signOn.book);
  await expect(createSecrets(signOn.book, cheap).set(person!, 'PIN', '4444', 'test')).rejects.toThrow(
    'neither all alike',
  );
});
