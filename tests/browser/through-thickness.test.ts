/**
 * Heat through the thickness as a person sees it: planned before the heat goes on, followed while the part warms, and
 * as a table for whoever does not read colours.
 */
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { act, look, sayWho, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const demonstration = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint = { ...demonstration, heating: { ...demonstration.heating, setPointCelsius: 168 } };

describe.skipIf(noBrowser)('heat through the thickness', () => {
  const browser = useBrowser();

  test('is planned, followed and told as a table', { timeout: testPatience }, async () => {
    const { address, board, station, play } = await openWorkshop(joint);
    await station.pipeline.open(joint, 'Runa Teld');
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/${joint.id}`);
    await sayWho(page, 'Runa Teld', 'heater operator');

    const plan = page.getByRole('region', { name: 'How long heating will take' });
    await plan.getByText('Needed: how fast the heated face is to rise.').waitFor();
    await plan.getByLabel('Rise of the heated face').fill('100');
    await plan
      .getByText(/^Warm through in .* from the start of heating/)
      .first()
      .waitFor();
    await look(page, 'through-planned');

    await act(page, /^Heat on/, /Record heat on/, async () => {});
    await plan.waitFor({ state: 'detached' });
    board.heater({ on: true, setPointCelsius: 168 });
    await play(minutes(30));
    const through = page.getByRole('article', { name: /^Through plate A/ });
    await through.getByText(/^Not warm through/).waitFor();
    await through
      .getByRole('img', { name: /^Profile through plate A: Not warm through, coldest \d+ °C of 145 °C/ })
      .waitFor();
    await through.getByText(/^Warm through in \d+ to \d+\smin with/).waitFor();
    await through.getByText('How sure').click();
    await through.getByText(/^Carbon steel, by the analysis/).waitFor();
    await through.getByText('The same as a table').click();
    const table = through.getByRole('region', { name: 'Temperatures through plate A as a table' });
    await table.getByRole('columnheader', { name: 'Coldest at worst' }).waitFor();
    const newest = await table.getByRole('row').nth(1).getByRole('cell').allTextContents();
    const [heated, , , , far] = newest.map(Number);
    expect(heated, 'the heated face is the warmer one').toBeGreaterThan(far!);
    await look(page, 'through-heating');

    await play(minutes(35));
    await through
      .getByText(/^Warm through/)
      .first()
      .waitFor();
    await through.getByText(/^Above 120\s°C for .* with the heat off/).waitFor();
    await look(page, 'through-warm');
  });
});
