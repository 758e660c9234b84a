/** Signing on over HTTP, what follows from it at the desk, and that no secret leaves the way it came in. */
import { readFileSync } from 'node:fs';
import { expect, onTestFinished, test, vi } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import type { PersonKept } from '../../../server/people/people.ts';
import type { PeopleView } from '../../../server/weld/sign-on.ts';
import { because, problem, shop } from '../../support/guarded-shop.ts';
import { asJson } from '../../support/http-bench.ts';
import { password } from '../../support/people.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { bytesOfRecord } from '../../support/unpacked-record.ts';

test('while the station knows nobody a name is taken as typed, and the record says so', async () => {
  const { browser, newest } = await shop();
  const page = browser();
  expect(await page.view()).toEqual({ needed: false, byPin: [] });
  expect((await page.act({ kind: 'heat', state: 'on' }, { name: 'Odd Varen', role: 'welder' })).status).toBe(201);
  expect(newest()).toMatchObject({ who: 'Odd Varen', role: 'welder', proof: 'typed name' });
  expect(newest()).not.toHaveProperty('person');
});

test('once it knows somebody nobody acts without signing on; everybody still looks', async () => {
  const { browser, add, newest, http } = await shop();
  await add('Runa Teld', 'administrator');
  const page = browser();
  expect(await page.view()).toEqual({ needed: true, byPin: [] });
  const refused = await page.act({ kind: 'heat', state: 'on' }, { name: 'Runa Teld', role: 'inspector' });
  expect([refused.status, await because(refused)]).toEqual([401, expect.stringContaining('sign on')]);
  const joint = asJson(jointOn('two', 'b1'));
  expect((await page.post('/api/joints', { who: { name: 'Runa Teld' }, joint })).status).toBe(401);
  expect((await page.send('POST', '/api/joints/one/documents')).status).toBe(401);
  expect((await page.send('GET', '/api/joints/one')).status).toBe(200);
  expect(newest()?.kind).toBe('opened');
  expect(http.failures).toEqual([]);
});

test('who acts and in which role comes from the sign-on, whatever the request says', async () => {
  const { browser, add, newest, http } = await shop();
  const odd = await add('Odd Varen', 'viewer', 'welder', 'inspector');
  const page = browser();
  expect((await page.signOn('odd varen')).status).toBe(201);
  const claimed = { name: 'Somebody Else', role: 'administrator' };
  expect(
    (await page.act({ kind: 'pass start', pass: '1', passKind: 'root', welder: 'Odd Varen' }, claimed)).status,
  ).toBe(201);
  expect(newest()).toMatchObject({ who: 'Odd Varen', role: 'welder', person: odd.id, proof: 'password' });
  expect((await page.act({ kind: 'accept', subject: 'extended range', reason: 'seen' })).status).toBe(201);
  expect(newest()).toMatchObject({ who: 'Odd Varen', role: 'inspector' });
  expect((await page.post('/api/joints', { joint: asJson(jointOn('two', 'b2')) })).status).toBe(201);
  const [opened] = [...http.bench.record.entries('two')];
  expect(opened).toMatchObject({ kind: 'opened', who: 'Odd Varen', role: 'welder', person: odd.id, proof: 'password' });
});

test('a role that may not is refused, and is told which may; a viewer acts on nothing', async () => {
  const { browser, add, newest } = await shop();
  await add('Odd Varen', 'welder');
  await add('Ylva Brant', 'viewer');
  const page = browser();
  await page.signOn('Odd Varen');
  const close = await page.act({ kind: 'close' });
  expect([close.status, await problem(close)]).toEqual([
    422,
    { field: 'who.role', found: 'the role welder', allowed: 'for closing a joint: inspector and coordinator' },
  ]);
  const looker = browser();
  await looker.signOn('Ylva Brant');
  for (const act of [
    { kind: 'heat', state: 'on' },
    { kind: 'note', text: 'Seen.' },
    { kind: 'acknowledge', alarm: 'x' },
  ])
    expect((await problem(await looker.act(act))).found).toBe('the role viewer');
  const document = await looker.send('POST', '/api/joints/one/documents');
  expect((await problem(document)).field).toBe('who.role');
  expect(newest()?.kind).toBe('opened');
});

test('a PIN or a badge is taken on a trusted screen only, until that is revoked', async () => {
  const { browser, add, newest, clock } = await shop();
  await add('Runa Teld', 'administrator', 'coordinator');
  const odd = await add('Odd Varen', 'welder');
  const office = browser();
  await office.signOn('Runa Teld');
  const pin = (await (await office.post(`/api/people/${odd.id}/pin`)).json()) as { text: string };
  const badge = (await (await office.post(`/api/people/${odd.id}/badge`)).json()) as { text: string; svg: string };
  expect(badge.svg).toContain('<svg');

  const bay = browser();
  const byPin = { person: odd.id, pin: pin.text };
  expect((await bay.post('/api/sign-on', byPin)).status).toBe(401);
  // The administrator signs on at that screen, trusts it, and leaves.
  await bay.signOn('Runa Teld');
  expect((await bay.post('/api/screens', { name: 'Bay 2' })).status).toBe(201);
  await bay.post('/api/sign-off');
  expect(await bay.view()).toEqual({ needed: true, screen: 'Bay 2', byPin: [{ id: odd.id, name: 'Odd Varen' }] });
  expect((await bay.post('/api/sign-on', byPin)).status).toBe(201);
  expect((await bay.view()).who).toMatchObject({
    name: 'Odd Varen',
    proof: 'PIN',
    endsInMilliseconds: limits.shortSignOnMilliseconds,
  });
  await bay.act({ kind: 'heat', state: 'on' });
  expect(newest()).toMatchObject({ who: 'Odd Varen', proof: 'PIN', person: odd.id });
  clock.move(limits.shortSignOnMilliseconds);
  expect((await bay.act({ kind: 'heat', state: 'off' })).status).toBe(401);
  // A scanner may type capitals and a line end.
  expect((await bay.post('/api/sign-on', { badge: `${badge.text.toUpperCase()}\r` })).status).toBe(201);
  await bay.act({ kind: 'heat', state: 'off' });
  expect(newest()).toMatchObject({ proof: 'badge' });

  const { screens } = (await (await office.send('GET', '/api/people')).json()) as PeopleView;
  expect((await office.send('DELETE', `/api/screens/${screens[0]!.id}`)).status).toBe(201);
  expect((await bay.act({ kind: 'heat', state: 'on' })).status).toBe(401);
  expect((await bay.post('/api/sign-on', byPin)).status).toBe(401);
});

test('people are the business of an administrator who signed on by password', async () => {
  const { browser, add } = await shop();
  const runa = await add('Runa Teld', 'administrator');
  await add('Odd Varen', 'welder');
  const anyone = browser();
  expect((await anyone.send('GET', '/api/people')).status).toBe(401);
  const welder = browser();
  await welder.signOn('Odd Varen');
  for (const [method, path] of [
    ['GET', '/api/people'],
    ['POST', '/api/people'],
    ['POST', `/api/people/${runa.id}/password`],
    ['POST', '/api/screens'],
  ] as const)
    expect([path, (await welder.send(method, path, method === 'GET' ? undefined : {})).status]).toEqual([path, 403]);
  const office = browser();
  await office.signOn('Runa Teld');
  const { text: pin } = (await (await office.post(`/api/people/${runa.id}/pin`)).json()) as { text: string };
  await office.post('/api/screens', { name: 'Office' });
  await office.post('/api/sign-on', { person: runa.id, pin });
  expect((await office.view()).who?.proof).toBe('PIN');
  expect(await because(await office.send('GET', '/api/people'))).toContain('with your password');
});

test('adding, changing and switching off somebody is noted with who did it, and ends what that person had open', async () => {
  const { browser, add } = await shop();
  await add('Runa Teld', 'administrator');
  const office = browser();
  await office.signOn('Runa Teld');
  const added = await office.post('/api/people', { name: 'Imke Sorel', roles: ['heater operator'] });
  const imke = (await added.json()) as PersonKept;
  const { text } = (await (await office.post(`/api/people/${imke.id}/password`)).json()) as { text: string };
  const tablet = browser();
  expect((await tablet.signOn('Imke Sorel', text)).status).toBe(201);
  expect((await tablet.act({ kind: 'heat', state: 'on' })).status).toBe(201);
  const { name, roles } = imke;
  await office.send('PUT', `/api/people/${imke.id}`, { name, roles, active: false });
  expect((await tablet.act({ kind: 'heat', state: 'off' })).status).toBe(401);
  expect((await tablet.signOn('Imke Sorel', text)).status).toBe(401);
  const view = (await (await office.send('GET', '/api/people')).json()) as PeopleView;
  expect(view.events.slice(0, 3)).toMatchObject([
    { who: 'Runa Teld', what: 'changed Imke Sorel; works here no more' },
    { who: 'Runa Teld', what: 'set the password of Imke Sorel' },
    { who: 'Runa Teld', what: 'added Imke Sorel: heater operator' },
  ]);
  expect(await problem(await office.post('/api/people', { name: '', roles: [] }))).toMatchObject({ field: 'name' });
});

test('one changes one’s own password against the one that one has', async () => {
  const { browser, add } = await shop();
  await add('Odd Varen', 'welder');
  const page = browser();
  await page.signOn('Odd Varen');
  const own = (kind: string, now: string, secret: string) =>
    page.post('/api/sign-on/own', { kind, password: now, secret });
  expect((await own('password', 'not this one', 'four green ladders')).status).toBe(401);
  expect((await own('password', password, 'Odd Varen 1987!')).status).toBe(422);
  expect((await own('PIN', password, '1234')).status).toBe(422);
  expect((await own('PIN', password, '580314')).status).toBe(201);
  expect((await own('password', password, 'four green ladders')).status).toBe(201);
  expect((await browser().signOn('Odd Varen')).status).toBe(401);
  expect((await browser().signOn('Odd Varen', 'four green ladders')).status).toBe(201);
});

test('a page of another site does not act in the name of whoever is signed on', async () => {
  const { http, add } = await shop();
  await add('Odd Varen', 'welder');
  for (const path of ['/api/sign-on', '/api/sign-off', '/api/joints/one/acts', '/api/people'])
    expect((await http.post(path, {}, { origin: 'http://elsewhere.example' })).status).toBe(403);
});

test('no secret stands in record, people file, answers that others get, or what the station says', async () => {
  const said: unknown[] = [];
  for (const way of ['log', 'error', 'warn', 'info'] as const)
    vi.spyOn(console, way).mockImplementation((...words) => void said.push(words));
  const write = vi.spyOn(process.stderr, 'write');
  onTestFinished(() => void vi.restoreAllMocks());
  const { browser, add, http, file } = await shop();
  const runa = await add('Runa Teld', 'administrator', 'coordinator');
  const office = browser();
  await office.signOn('Runa Teld');
  const made: string[] = [password, 'four green ladders', 'wrong wrong wrong 7'];
  for (const kind of ['pin', 'badge']) {
    const { text } = (await (await office.post(`/api/people/${runa.id}/${kind}`)).json()) as { text: string };
    made.push(text.split(' ').at(-1)!);
  }
  await office.post('/api/sign-on/own', { kind: 'password', password, secret: 'four green ladders' });
  const failed = await browser().signOn('Runa Teld', 'wrong wrong wrong 7');
  const unreadable = await browser().post('/api/sign-on', { name: 'Runa Teld', pasword: 'wrong wrong wrong 7' });
  await office.act({ kind: 'note', text: 'Seen.' });
  const answers = [await failed.text(), await unreadable.text()];
  for (const path of ['/api/people', '/api/sign-on', '/api/joints/one/timeline', '/api/joints/one'])
    answers.push(await (await office.send('GET', path)).text());
  expect(answers[2]).toContain('Runa Teld');
  const kept = bytesOfRecord(http.bench.folder);
  const ofPeople = ['', '-wal'].map((end) => readFileSync(`${file}${end}`));
  expect(
    kept.some((bytes) => bytes.includes('Seen.')),
    'the look sees the record',
  ).toBe(true);
  for (const secret of made) {
    expect([...kept, ...ofPeople].some((bytes) => bytes.includes(secret))).toBe(false);
    expect(answers.some((text) => text.includes(secret))).toBe(false);
    expect(JSON.stringify([said, write.mock.calls, http.failures]).includes(secret)).toBe(false);
  }
});
