/** An alarm from its first ring to its end, as a person at the screen sees to it. */
import type { Locator } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { look, sayWho, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const joint = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));

describe.skipIf(noBrowser)('an alarm', () => {
  const browser = useBrowser();

  test('is found, put aside, taken up again, acknowledged for all joints in one place, and kept', {
    timeout: testPatience,
  }, async () => {
    const { address, board, station, play } = await openWorkshop(joint, { hot: true });
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(minutes(2));
    await opened;
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/${joint.id}`);
    await sayWho(page, 'Runa Teld', 'inspector');
    const wire = (mishap: 'open' | 'none') => board.inject({ kind: 'channel', channel: 1, mishap });

    wire('open');
    await play(minutes(1));
    const alarms = page.getByRole('region', { name: 'Alarms', exact: true });
    await alarms.getByText('Probe fault at zone A: its place is not judged').waitFor();
    await alarms.getByText(/Low: before the next pass\. Active, not acknowledged; since/).waitFor();
    await alarms.getByText(/^Side A, .* face, .* from the groove\.$/).waitFor();
    await alarms.getByText(/First:.*look at the wire/).waitFor();
    await page.getByRole('img', { name: /zone A at [^;]*alarm/ }).waitFor();
    for (const button of await alarms.getByRole('button').all()) expect(await side(button)).toBeGreaterThanOrEqual(48);
    await look(page, 'alarm-rings');

    // Put aside: not without a reason, and it stands as put aside.
    await alarms.getByRole('button', { name: /^Put aside: Probe fault/ }).click();
    const form = page.getByRole('form', { name: /^Put aside/ });
    await form.getByRole('button', { name: /^Put aside for/ }).click();
    await form.getByText('Say why').waitFor();
    await form.getByLabel('Why').fill('New wire is fetched from the store');
    await look(page, 'alarm-aside');
    await form.getByRole('button', { name: /^Put aside for/ }).click();
    await alarms.waitFor({ state: 'detached' });
    const quiet = page.getByRole('region', { name: 'Alarms so far' });
    await quiet.getByText(/put aside by Runa Teld until .*New wire is fetched.*still stands/).waitFor();

    await quiet.getByRole('button', { name: 'Take up again: Probe zone A' }).click();
    await alarms.getByText('Probe fault at zone A: its place is not judged').waitFor();

    // From the list of joints.
    await page.getByRole('link', { name: 'Joints' }).click();
    const all = page.getByRole('region', { name: 'Alarms of all joints' });
    await look(page, 'alarm-overview');
    await all.getByRole('button', { name: /^Acknowledge: Probe fault at zone A/ }).click();
    await all.getByText(/Active, acknowledged by Runa Teld/).waitFor();
    wire('none');
    await play(minutes(2));
    await all.waitFor({ state: 'detached' });

    await page.getByRole('link', { name: /base plate/ }).click();
    await quiet.getByText('What rang, and who saw to it').click();
    const history = quiet.getByRole('list').filter({ hasText: 'rang' });
    for (const words of ['rang', 'acknowledged by Runa Teld', 'normal again, and gone', 'no longer put aside'])
      await history.getByText(words, { exact: true }).first().waitFor();
    await look(page, 'alarm-history');
  });
});

/** The shorter side of what is to be pressed, in pixels. */
async function side(button: Locator): Promise<number> {
  const box = await button.boundingBox();
  return box === null ? 0 : Math.min(box.width, box.height);
}
