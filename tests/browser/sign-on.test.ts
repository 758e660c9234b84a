/** Who acts is proven: by password in the office, by PIN or badge with gloves at a trusted screen; a part that may not is told who may. */
import { rmSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, onTestFinished, test } from 'vitest';
import { limits } from '../../server/measure/limits.ts';
import { openBook } from '../../server/people/book.ts';
import { peopleFileOf } from '../../server/people/file.ts';
import { addPerson, type PersonKept } from '../../server/people/people.ts';
import { badgeText } from '../../server/people/requests.ts';
import { trustScreen } from '../../server/people/screens.ts';
import { createSecrets } from '../../server/people/secrets-kept.ts';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import type { Role } from '../../server/weld/person.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { cheap, password } from '../support/people.ts';
import { look, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const joint = jointSchema.parse({
  ...readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url)),
  id: 'girder-3',
  title: 'Girder 3, lower flange',
});
const refusedTry = /status of 401/;

/** A station whose people are known, with the joint entered. */
async function guarded() {
  const workshop = await openWorkshop(joint, { hot: true });
  const file = peopleFileOf(workshop.folder);
  const book = openBook({ file, now: workshop.now });
  const secrets = createSecrets(book, cheap);
  onTestFinished(() => {
    book.close();
    for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true });
  });
  const add = async (name: string, ...roles: Role[]): Promise<PersonKept> => {
    const person = addPerson(book, { name, roles }, 'test');
    await secrets.set(person, 'password', password, 'test');
    return person;
  };
  const opened = workshop.station.pipeline.open(joint, 'Runa Teld');
  await workshop.play(minutes(1));
  await opened;
  return { ...workshop, add, secrets, book };
}

const signOnButton = (page: Page) => page.getByRole('banner').getByRole('button', { name: 'Sign on' });

async function byPassword(page: Page, name: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Sign on with name and password' });
  await form.getByLabel('Name').fill(name);
  await form.getByLabel('Password').fill(password);
  await form.getByRole('button', { name: 'Sign on' }).click();
  await page.getByRole('banner').getByText(name).waitFor();
}

describe.skipIf(noBrowser)('signing on', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('a PIN on large keys at a trusted screen: the act that was wanted goes on, and the record says how the name is known', async () => {
    const { address, add, secrets, book, play } = await guarded();
    await add('Runa Teld', 'administrator');
    const odd = await add('Odd Varen', 'welder');
    await secrets.set(odd, 'PIN', '580314', 'test');
    const badge = 'c0ffee00c0ffee00c0ffee00c0ffee00';
    await secrets.set(odd, 'badge', badge, 'test');
    const page = await tablet(browser, refusedTry);
    await page.goto(`${address}#/joint/girder-3`);
    // The cookie that an administrator's visit leaves on a screen; the page People has a test of its own.
    const { name } = await cookieOf(page, address);
    await page.context().addCookies([
      {
        name,
        value: trustScreen(book, 'Bay 2', 'Runa Teld'),
        url: `${address}api/`,
        httpOnly: true,
        sameSite: 'Strict',
      },
    ]);
    await page.reload();
    await page.getByRole('button', { name: /^Heat on/ }).click();
    await page.getByRole('button', { name: 'Odd Varen' }).click();
    await page.getByLabel('PIN of Odd Varen').waitFor();
    await look(page, 'sign-on-pin');
    const press = async (digits: string): Promise<void> => {
      for (const digit of digits) await page.getByRole('button', { name: digit, exact: true }).click();
      await page.getByRole('button', { name: 'Enter', exact: true }).click();
    };
    await press('111222');
    await page.getByRole('alert').filter({ hasText: 'this PIN is not right' }).waitFor();
    await press('580314');
    // What was pressed before goes on.
    const form = page.getByRole('form', { name: 'Heat on or off' });
    await form.getByRole('button', { name: 'Record heat on' }).click();
    await form.waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'All entries' }).click();
    await page.getByRole('cell', { name: /^Odd Varen, welder\s*signed on with a PIN/ }).waitFor();
    // Nobody touches the screen: it says so in time, then nobody is signed on.
    await play(limits.shortSignOnMilliseconds);
    await page.reload();
    await signOnButton(page).click();
    await page.getByLabel('Or scan your badge').fill(badgeText(odd.id, badge));
    await page.keyboard.press('Enter');
    await page.getByRole('banner').getByText('Odd Varen').waitFor();
  });

  test('a part that may not is told who may, and a viewer sees everything and acts on nothing', async () => {
    const { address, add } = await guarded();
    await add('Odd Varen', 'welder');
    await add('Ylva Brant', 'viewer');
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/girder-3`);
    await signOnButton(page).click();
    await look(page, 'sign-on-password');
    await byPassword(page, 'Odd Varen');
    const close = page.getByRole('button', { name: /Close the joint\s*for inspector and coordinator/ });
    expect(await close.getAttribute('aria-disabled')).toBe('true');
    await close.click({ force: true });
    expect(await page.getByRole('form', { name: 'Close the joint' }).count()).toBe(0);
    await page
      .getByRole('banner')
      .getByRole('button', { name: /Odd Varen/ })
      .click();
    await page.getByRole('button', { name: 'Sign off' }).click();
    await signOnButton(page).click();
    await byPassword(page, 'Ylva Brant');
    await page.getByRole('button', { name: /^Heat on\s*for welder/ }).waitFor();
    const open = page.locator('.actions button:not([aria-disabled="true"])');
    await expect.poll(() => open.count()).toBe(0);
    await look(page, 'sign-on-viewer');
    await page.getByRole('heading', { name: 'Required preheat' }).waitFor();
  });

  test('the shift is handed over: where it stands, what is open, what comes next; both sign, and the record has both', async () => {
    const { address, add } = await guarded();
    await add('Runa Teld', 'coordinator');
    await add('Odd Varen', 'welder');
    const page = await tablet(browser, refusedTry);
    await page.goto(address);
    await page.getByRole('link', { name: 'Hand over the shift' }).click();
    const girder = page.getByRole('region', { name: 'Girder 3, lower flange' });
    await girder.getByText('Where it stands').waitFor();
    await girder.getByText(/^Cannot be judged: /).waitFor();
    await girder
      .getByText(/^Not met: /)
      .first()
      .waitFor();
    await girder.getByText(/^Then /).waitFor();
    const signing = page.getByRole('region', { name: 'Both sign' });
    await signing.getByRole('button', { name: 'Sign on to hand over' }).click();
    await byPassword(page, 'Runa Teld');
    await signing.getByText('Runa Teld hands over').waitFor();
    await signing.getByLabel('What should be known beyond this page').fill('Far side wrapped, look at T3.');
    await look(page, 'hand-over');
    await accessible(page);
    const second = signing.getByRole('form', { name: 'Take over with name and password' });
    const takeOver = async (secret: string): Promise<void> => {
      await second.getByLabel('Name').fill('Odd Varen');
      await second.getByLabel('Password').fill(secret);
      await second.getByRole('button', { name: 'Take over' }).click();
    };
    await takeOver('seven quick barges');
    await signing.getByRole('alert').filter({ hasText: 'name and password do not go together' }).waitFor();
    await takeOver(password);
    await signing.getByText('Handed over by Runa Teld to Odd Varen: 1 joint.').waitFor();
    await page.goto(`${address}#/joint/girder-3/record`);
    await page
      .getByRole('cell', {
        name: 'Handed over to Odd Varen (signed on with a password). Far side wrapped, look at T3.',
      })
      .waitFor();
    const pdf = await page.request.get(`${address}api/joints/girder-3/hand-over.pdf?zone=UTC`);
    expect([pdf.status(), (await pdf.body()).subarray(0, 5).toString()]).toEqual([200, '%PDF-']);
  });

  test('the administrator adds a welder, gives a badge, enters a qualification, and trusts the screen', async () => {
    const { address, add } = await guarded();
    await add('Runa Teld', 'administrator', 'coordinator');
    const page = await tablet(browser);
    await page.goto(`${address}#/people`);
    await signOnButton(page).click();
    await byPassword(page, 'Runa Teld');
    await page.getByRole('navigation').getByRole('link', { name: 'People' }).waitFor();
    await page.getByText('Add somebody').click();
    const adding = page.getByRole('region', { name: 'Add somebody' });
    await adding.getByLabel('Name, as it is to stand in the record').fill('Odd Varen');
    await adding.getByLabel('Welder').check();
    await adding.getByRole('button', { name: 'Add' }).click();
    const odd = page.getByRole('region', { name: 'Odd Varen' });
    await odd.getByRole('button', { name: 'Give a PIN' }).click();
    await odd.getByText(/^\d{6}$/).waitFor();
    await odd.getByRole('button', { name: 'It is handed over' }).click();
    await odd.getByText('Signs on with: PIN.').waitFor();
    await odd.getByRole('button', { name: 'Give a badge' }).click();
    await odd.getByRole('img', { name: 'Code of the badge of Odd Varen' }).waitFor();
    await odd.getByText('Qualifications of Odd Varen: none entered').click();
    const form = odd.getByRole('form', { name: 'Enter a qualification' });
    await form.getByLabel('Standard').fill('ISO 9606-1');
    await form.getByLabel('Certificate', { exact: true }).fill('VK-118');
    await form.getByLabel('Range, as the certificate says it').fill('BW, t 3 mm and more, PA PC PF');
    await form.getByLabel('Valid until').fill('2027-03-31');
    await form.getByLabel('135').check();
    await form.getByRole('button', { name: 'Enter the qualification' }).click();
    await odd.getByText(/^ISO 9606-1, process 135: BW.*certificate VK-118; valid until 2027-03-31/).waitFor();
    await page.getByLabel('Name of this screen').fill('Bay 2, tablet');
    await page.getByRole('button', { name: 'Trust this screen' }).click();
    await page.getByText('Bay 2, tablet (this screen), trusted by Runa Teld').waitFor();
    await look(page, 'people');
    await accessible(page);
    await page
      .getByRole('banner')
      .getByRole('button', { name: /Runa Teld/ })
      .click();
    await page.getByRole('button', { name: 'Sign off' }).click();
    await signOnButton(page).click();
    await accessible(page);
    await page.getByRole('button', { name: 'Odd Varen' }).click();
    await page.getByLabel('PIN of Odd Varen').waitFor();
    await accessible(page);
  });
});

/** The name of the screen's cookie at this station: beside that of a session, which signing off names. */
async function cookieOf(page: Page, address: string): Promise<{ name: string }> {
  const answer = await page.request.post(`${address}api/sign-off`, { headers: { origin: new URL(address).origin } });
  const [, end = ''] = /preheat-session-([0-9a-f]{8})=/.exec(answer.headers()['set-cookie'] ?? '') ?? [];
  return { name: `preheat-screen-${end}` };
}

async function accessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .options({ resultTypes: ['violations'] })
    .analyze();
  const grave = violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} (${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')})`);
  expect(grave).toEqual([]);
}
