/** Readings by hand as a person enters them: a crayon, and beside a probe in three taps. */
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { act, look, sayWho, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const plain = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint = jointSchema.parse({
  ...plain,
  instruments: [
    { id: 'CT-3', kind: 'contact thermometer', maximumErrorKelvin: 3, certificate: 'C-118', dueOn: '2099-01-31' },
    { id: 'CR-150', kind: 'crayon', maximumErrorKelvin: 1.5, certificate: 'C-119' },
  ],
});

describe.skipIf(noBrowser)('a reading by hand', () => {
  const browser = useBrowser();

  test('with a crayon, and beside a probe in three taps', { timeout: testPatience }, async () => {
    const { address, board, station, play } = await openWorkshop(joint);
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(minutes(1));
    await opened;
    board.heater({ on: true, setPointCelsius: 175 });
    await play(minutes(100));
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/${joint.id}`);
    await sayWho(page, 'Runa Teld', 'welder');

    await act(page, /^Contact reading/, /Record the reading/, async (form) => {
      await form.getByLabel('CR-150, crayon').check();
      await form.getByLabel('It is made for').fill('150');
      await form.getByRole('button', { name: 'Record the reading' }).click();
      await form.getByText('Did it melt or not?').waitFor();
      await form.getByLabel('Melted', { exact: true }).check();
      await look(page, 'hand-crayon');
    });
    await page.getByText(/Recorded: Contact reading at least 150 °C.*crayon \(TS\) CR-150/).waitFor();

    // Three taps: open, touch the value, record. Each target is large enough for gloves.
    const probe = station.pipeline.run(joint.id)!.assessment.twinAsked!.probe;
    await page.getByRole('button', { name: `Read by hand beside ${probe}` }).click();
    const form = page.getByRole('form', { name: `Read by hand beside ${probe}` });
    const keys = form.getByRole('button', { name: /^\d+$/ });
    for (const key of await keys.all()) {
      const box = (await key.boundingBox())!;
      expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(64);
    }
    await look(page, 'hand-twin');
    await keys.nth(9).click();
    await form.getByRole('button', { name: /^Record \d+ °C/ }).click();
    await form.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: /^Read by hand/ }).waitFor({ state: 'detached' });
    await page.getByText(/by hand [+−]\d+\.\d K/).waitFor();
    expect(station.pipeline.run(joint.id)!.assessment.twins).toMatchObject([{ probe, agrees: true }]);
    await page.getByText(/^The dotted band about .* is its uncertainty/).waitFor();
    await look(page, 'hand-done');
  });

  test('the register: an instrument is entered, calibrated for all readings, verified', {
    timeout: testPatience,
  }, async () => {
    const { address, station, play } = await openWorkshop(joint, { hot: true });
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(minutes(5));
    await opened;
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/${joint.id}`);
    await sayWho(page, 'Runa Teld', 'inspector');
    const register = page.getByRole('region', { name: 'Instruments' });
    await register.getByText('CT-3', { exact: true }).waitFor();

    await act(page, /^Enter an instrument/, /Record the instrument/, async (form) => {
      await form.getByLabel('Name', { exact: true }).fill('B-7a3f');
      await form.getByLabel('Kind').selectOption('board');
      await form.getByLabel('Board').fill(joint.probes[0]!.board);
      await form.getByLabel('Largest error').fill('1.5');
      await look(page, 'register-enter');
    });
    await register.getByText('B-7a3f', { exact: true }).waitFor();
    const before = station.pipeline.run(joint.id)!.assessment.coldest!.temperature;

    await act(page, /^Calibration of B-7a3f/, /Record the calibration/, async (form) => {
      await form.getByLabel('Certificate').fill('C-200');
      await form.getByLabel('Of', { exact: true }).fill('2026-01-10');
      await form.getByLabel('At', { exact: true }).fill('150');
      await form.getByLabel('Added to the reading').fill('4');
      await form.getByLabel('Uncertainty U').fill('0.8');
      await form.getByLabel('For all readings of this joint').check();
      await look(page, 'register-calibration');
    });
    await expect
      .poll(() => station.pipeline.run(joint.id)!.assessment.coldest!.temperature - before, { timeout: 20_000 })
      .toBeGreaterThan(3000);

    await act(page, /^Verification of CT-3/, /Record the verification/, async (form) => {
      await form.getByLabel('It read').fill('153');
      await form.getByLabel('Beside which instrument').fill('R-1');
      await form.getByLabel('Which read').fill('149');
      await form.getByLabel('Outside its limit').check();
    });
    await register.getByText('found outside its limit').waitFor();
    await look(page, 'register');
    await register.getByRole('listitem').first().getByText('CT-3', { exact: true }).waitFor();
  });
});
