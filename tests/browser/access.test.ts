/** Every page, in light and dark, by the rules of axe-core: nothing serious or critical. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { sentence, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const joint = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const who = { name: 'Runa Teld' };

describe.skipIf(noBrowser)('pages that everyone can use', () => {
  const browser = useBrowser();

  test('joints, new joint, one joint live with an alarm, its record, past joints and counts', {
    timeout: testPatience,
  }, async () => {
    const { address, board, station, play } = await openWorkshop(joint, { hot: true });
    const opened = station.pipeline.open(joint, who.name);
    await play(minutes(2));
    await opened;
    const noted = station.pipeline.act(joint.id, { who, act: { kind: 'note', text: 'Pads moved by a hand.' } });
    board.inject({ kind: 'channel', channel: 1, mishap: 'open' });
    await play(minutes(1));
    await noted;

    const page = await tablet(browser);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await page.goto(`${address}#/`);
      await page
        .getByRole('link', { name: /Demonstration: base plate/ })
        .first()
        .waitFor();
      await examine(page, `joints, ${colorScheme}`);
      await page.goto(`${address}#/new`);
      await page.getByLabel('Title').waitFor();
      await examine(page, `new joint, ${colorScheme}`);
      await page.goto(`${address}#/joint/demonstration`);
      await sentence(page)
        .filter({ hasText: /^Not ready:/ })
        .waitFor();
      await page.getByText('Probe fault at zone A: its place is not judged').waitFor();
      await examine(page, `one joint, ${colorScheme}`);
      await page.getByRole('link', { name: 'All entries' }).click();
      await page.getByRole('cell', { name: 'Note: Pads moved by a hand.' }).waitFor();
      await examine(page, `record, ${colorScheme}`);
      await page.goto(`${address}#/past`);
      await page.getByLabel('Words').fill('runa BASE pla');
      await page.getByText('1 joint found. 1 joint was looked through.').waitFor();
      await page.getByText('Found in joint, drawing, workshop').waitFor();
      await examine(page, `past joints, ${colorScheme}`);
      await page.getByRole('link', { name: 'Count', exact: true }).click();
      await page.getByRole('cell', { name: 'Open circuit' }).waitFor();
      await examine(page, `counts, ${colorScheme}`);
      await page.getByRole('button', { name: 'Ask for all again' }).click();
    }
  });
});

async function examine(page: Page, where: string): Promise<void> {
  // One frame and no page of others: what is slow for their sake is left out.
  const rules = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
  // The other colours change nothing but colours.
  if (where.endsWith('dark')) rules.withRules(['color-contrast']);
  const { violations } = await rules.analyze();
  const grave = violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} (${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')})`);
  expect(grave, where).toEqual([]);
}
