/** Both signatures of a hand-over over HTTP: who takes over proves it where people sign on, and never by what is sent. */
import { expect, test } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { problem, shop } from '../../support/guarded-shop.ts';
import { password } from '../../support/people.ts';

test('a hand-over is signed by two: the second proves itself at the same screen, and a claimed one counts for nothing', async () => {
  const { browser, add, newest, clock } = await shop();
  await add('Runa Teld', 'heater operator');
  const odd = await add('Odd Varen', 'welder');
  await add('Ylva Brant', 'viewer');
  const page = browser();
  const other = browser();
  await page.signOn('Runa Teld');
  await other.signOn('Odd Varen');
  const over = (counterSign?: string, from = page) => {
    const claimed = { kind: 'hand-over', to: 'Odd Varen', toPerson: odd.id, toProof: 'password', note: 'Look at T3.' };
    return from.send(
      'POST',
      '/api/joints/one/acts',
      { act: claimed },
      counterSign === undefined ? {} : { 'counter-sign': counterSign },
    );
  };
  expect(await problem(await over())).toMatchObject({ field: 'act.to', found: 'one signature' });
  const sign = async (name: string, secret = password) => page.post('/api/counter-sign', { name, password: secret });
  expect((await sign('Odd Varen', 'wrong wrong wrong 7')).status).toBe(401);
  expect((await problem(await sign('Runa Teld'))).allowed).toBe('somebody else');
  expect((await problem(await sign('Ylva Brant'))).found).toBe('Ylva Brant, viewer');
  expect((await browser().post('/api/counter-sign', { name: 'Odd Varen', password })).status).toBe(401);
  const { counterSign } = (await (await sign('Odd Varen')).json()) as { counterSign: string };
  expect((await over(counterSign, other)).status, 'it goes with the sign-on that it was given to').toBe(422);
  expect((await over(counterSign)).status).toBe(201);
  expect(newest()).toMatchObject({
    kind: 'hand-over',
    who: 'Runa Teld',
    proof: 'password',
    body: { to: 'Odd Varen', toPerson: odd.id, toProof: 'password', note: 'Look at T3.' },
  });
  expect((await page.view()).who?.name).toBe('Runa Teld');
  clock.move(limits.counterSignMilliseconds);
  expect((await over(counterSign)).status).toBe(422);
});

test('where nobody signs on a hand-over is two typed names, and says so', async () => {
  const { browser, newest } = await shop();
  const page = browser();
  const over = (to: string) =>
    page.act({ kind: 'hand-over', to, toPerson: 'p-00000000', toProof: 'PIN' }, { name: 'Runa Teld', role: 'welder' });
  expect((await over('runa teld')).status).toBe(422);
  expect((await over('Odd Varen')).status).toBe(201);
  expect(newest()).toMatchObject({
    proof: 'typed name',
    body: { kind: 'hand-over', to: 'Odd Varen', toProof: 'typed name' },
  });
  expect(newest()?.body).not.toHaveProperty('toPerson');
});
