/** When something fails, the screen says so and does not look calm; and when it is well again, nothing is missing. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { limits } from '../../server/measure/limits.ts';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { look, patience, sayWho, sentence, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop, type Workshop } from './support/workshop.ts';

const joint = jointSchema.parse({
  ...readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url)),
  id: 'girder-3',
  title: 'Girder 3, lower flange',
});
const who = { name: 'Runa Teld' };
const waiting = { timeout: patience, interval: 250 };
const brokenLine = /Failed to load resource: net::|WebSocket connection to/;

/** The joint is entered, hot, and has been watched for a while. */
async function readyJoint(): Promise<Workshop> {
  const workshop = await openWorkshop(joint, { hot: true });
  const opened = workshop.station.pipeline.open(joint, who.name);
  await workshop.play(minutes(18));
  await opened;
  return workshop;
}

/** The table behind the chart; each panel has one of its own. */
const openTable = (page: Page): Promise<void> =>
  page.getByRole('region', { name: 'Temperatures over time' }).getByText('The same as a table').click();

describe.skipIf(noBrowser)('what the screen may be trusted for', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('a station that falls silent: nothing looks calm, nothing says ready', async () => {
    const { address, standStill, goOn } = await readyJoint();
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/girder-3`);
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
    const calm = await ground();
    standStill();
    await sentence(page)
      .filter({ hasText: /^No word from the station for .* do not rely on this screen/ })
      .waitFor();
    await page.getByRole('alert').filter({ hasText: 'No word from the station' }).waitFor();
    await page.getByRole('button', { name: /Start pass\s*conditions not known/ }).waitFor();
    await page.getByRole('banner').getByText('Lost').waitFor();
    expect(
      await page
        .getByText(/\bready\b/i)
        .filter({ visible: true })
        .allTextContents(),
    ).toEqual([]);
    expect(await ground(), 'the ground of the page is another').not.toBe(calm);
    await look(page, 'c-blind');
    await page.getByRole('link', { name: 'Joints' }).click();
    await page
      .getByRole('link', { name: /Girder 3/ })
      .getByText(/^Was:/)
      .waitFor();
    goOn();
    await page.getByRole('link', { name: /Girder 3/ }).click();
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();

    function ground(): Promise<string> {
      return page.locator('.page').evaluate((element) => getComputedStyle(element).backgroundImage);
    }
  });

  test('a line that breaks while a pass runs: afterwards the chart has no hole', async () => {
    const { address, line, play, station } = await readyJoint();
    const page = await tablet(browser, brokenLine);
    await page.goto(`${address}#/joint/girder-3`);
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
    const started = station.pipeline.act(joint.id, {
      who,
      act: { kind: 'pass start', pass: '1', passKind: 'root', welder: 'Odd Varen' },
    });
    await started;
    await sentence(page)
      .filter({ hasText: /^Pass 1 running/ })
      .waitFor();
    line.cut();
    await sentence(page)
      .filter({ hasText: /^No word from the station/ })
      .waitFor();
    await play(minutes(5));
    line.mend();
    await sentence(page)
      .filter({ hasText: /^Pass 1 running/ })
      .waitFor();
    await openTable(page);
    const table = page.getByRole('region', { name: 'Temperatures as a table' });
    const column = (await table.getByRole('columnheader').allTextContents()).indexOf('zone A');
    await expect
      .poll(async () => {
        await page.getByRole('button', { name: 'Bring up to date' }).click();
        const rows = await table.getByRole('row').all();
        const texts = await Promise.all(rows.slice(1).map((row) => row.locator('th, td').allTextContents()));
        return { of15Minutes: texts.length, holes: texts.filter((cells) => !/^\d/.test(cells[column] ?? '')) };
      }, waiting)
      // Half a minute a row; one more where the stretch begins within one.
      .toEqual({ of15Minutes: expect.toBeOneOf([30, 31]), holes: [] });
  });

  test('the table that is opened before the history has come says so, and fills by itself when it comes', async () => {
    const { address } = await readyJoint();
    const page = await tablet(browser);
    let letGo = (): void => undefined;
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    await page.route('**/history?*', async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(`${address}#/joint/girder-3`);
    await openTable(page);
    await page.getByText('The history has not come yet').waitFor();
    letGo();
    await page.getByRole('region', { name: 'Temperatures as a table' }).waitFor();
    expect(await page.getByText('The history has not come yet').count()).toBe(0);
  });

  test('a part of the page that the broken line kept away comes by itself once it can', async () => {
    const { address } = await readyJoint();
    const page = await tablet(browser, brokenLine);
    const drawing = '**/assets/draw-*.js';
    await page.route(drawing, (route) => route.abort());
    await page.goto(`${address}#/joint/girder-3`);
    const notice = page.getByText('What draws the chart could not be fetched from the station');
    await notice.waitFor();
    await page.unroute(drawing);
    await notice.waitFor({ state: 'detached' });
  });

  test('a browser that cannot keep up is cut off, and comes back by itself', async () => {
    const { address, line, play, station } = await readyJoint();
    const page = await tablet(browser, brokenLine);
    let lines = 0;
    let said = 0;
    station.pipeline.onStep(({ assessment }) => {
      said += JSON.stringify(assessment).length;
    });
    page.on('websocket', () => {
      lines += 1;
    });
    await page.goto(`${address}#/joint/girder-3`);
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
    await expect.poll(() => lines, waiting).toBe(1);
    line.clog();
    // Twice the bound, beside what the system itself takes in for a reader that is asleep; how many steps that is, the machine's load decides.
    const enough = said + 2 * limits.screenBacklogMaximum + 16_000_000;
    while (said < enough) await play(minutes(5));
    await sentence(page)
      .filter({ hasText: /^No word from the station/ })
      .waitFor();
    line.mend();
    await expect.poll(() => lines, waiting).toBe(2);
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
  });

  test('a disk that fails: NOT RECORDING at once, what was typed stays, and it is recorded once it can be', async () => {
    const { address, disk } = await readyJoint();
    const page = await tablet(browser, /status of 503/);
    await page.goto(`${address}#/joint/girder-3`);
    await sayWho(page, who.name, 'inspector');
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
    disk.break();
    const banner = page.getByRole('alert').filter({ hasText: 'NOT RECORDING.' });
    await banner.waitFor();
    await sentence(page)
      .filter({ hasText: /^Not recording:/ })
      .waitFor();
    await look(page, 'd-not-recording');
    await page.getByRole('button', { name: /^Note$/ }).click();
    const form = page.getByRole('form', { name: 'Note' });
    await form.getByLabel('What should be known later').fill('The disk was full.');
    await form.getByRole('button', { name: 'Record the note' }).click();
    await form
      .getByRole('alert')
      .filter({ hasText: /^Not recorded:/ })
      .waitFor();
    disk.mend();
    await banner.waitFor({ state: 'detached' });
    await form.getByRole('button', { name: 'Record the note' }).click();
    await form.waitFor({ state: 'detached' });
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
    await page.getByRole('link', { name: 'All entries' }).click();
    const noted = page.getByRole('cell', { name: 'Note: The disk was full.' });
    await noted.first().waitFor();
    expect(await noted.count()).toBe(1);
  });

  test('what is typed into a new joint outlives a reload', async () => {
    const { address } = await openWorkshop(joint);
    const page = await tablet(browser);
    await page.goto(`${address}#/new`);
    await page.getByLabel('Title').fill('Bracket 12');
    const plate = page.getByRole('region', { name: 'Part plate A' });
    await plate.getByLabel('Thickness').fill('62');
    await page.getByRole('button', { name: 'Add a probe' }).click();
    const probe = page.getByRole('region', { name: 'Probe' }).first();
    await probe.getByLabel('Channel').fill('7');
    await page.reload();
    await expect.poll(() => page.getByLabel('Title').inputValue(), waiting).toBe('Bracket 12');
    expect(await plate.getByLabel('Thickness').inputValue()).toBe('62');
    expect(await probe.getByLabel('Channel').inputValue()).toBe('7');
  });
});
