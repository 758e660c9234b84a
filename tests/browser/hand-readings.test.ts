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
});
