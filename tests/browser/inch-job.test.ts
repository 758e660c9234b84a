/**
 * A job whose papers are in inches and degrees Fahrenheit, entered by hand under a code: nothing on the way is
 * shown in other units, and the page that says how hot and why is one step away.
 */
import { describe, expect, test } from 'vitest';
import type { JointState } from '../../server/screen/contract.ts';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { look, sayWho, tablet, testPatience } from './support/hand.ts';
import { openWorkshop } from './support/workshop.ts';

const board = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));

describe.skipIf(noBrowser)('a job in inches', () => {
  const browser = useBrowser();

  test('is entered under AWS D1.1 and shows the row of its table in degrees Fahrenheit', {
    timeout: testPatience,
  }, async () => {
    const { address } = await openWorkshop(board);
    const page = await tablet(browser);
    await page.goto(`${address}#/new`);
    await sayWho(page, 'Runa Teld', 'inspector');
    await page.getByLabel('Title').fill('Girder splice 12');
    await page.getByText('in, °F, kJ/in').click();
    await page.getByLabel('Code', { exact: true }).selectOption('AWS D1.1');
    await page.getByText('Medium: held by the structure').click();

    // The certificate is pasted as it stands: shown first, and only then filled in.
    const parts = page.getByRole('group', { name: 'Parts' });
    const first = parts.getByRole('region', { name: 'Part plate A' });
    await first.getByLabel('Thickness').fill('1 3/4');
    await first.getByLabel('Category in AWS D1.1').selectOption('B');
    await first
      .getByLabel('Or paste a row or a table of the certificate')
      .fill(
        'Heat C Si Mn P S Cr Mo Ni Cu V Nb B [ppm]\n4711 0.17 0.35 1.45 0.012 0.004 0.05 0.01 0.05 0.15 0.005 <0.02 3',
      );
    const preview = first.getByRole('region', { name: 'What was read' });
    await preview.getByRole('row', { name: 'B 3 ppm 0.0003 %' }).waitFor();
    expect(await first.getByLabel('C, percent', { exact: true }).inputValue()).toBe('');
    await look(page, 'e-paste');
    await preview.getByRole('button', { name: 'Fill the fields' }).click();
    expect(await first.getByLabel('C, percent', { exact: true }).inputValue()).toBe('0.17');
    expect(await first.getByLabel('B, percent', { exact: true }).inputValue()).toBe('0.0003');
    const second = parts.getByRole('region', { name: 'Part plate B' });
    await second.getByLabel('Thickness').fill('1.75');
    await second.getByRole('button', { name: 'Same steel as plate A' }).click();
    await page.getByText('Class', { exact: true }).click();
    await page.getByLabel('Class (ISO 3690)').selectOption('H8');
    await page.getByText('kJ per in', { exact: true }).click();
    await page.getByLabel('Heat input, efficiency included').fill('40');

    // AWS D1.1 prequalified table, category B, over 1 1/2 to 2 1/2 in: 150 °F (verified). The hydrogen control
    // method, medium restraint, over 1 1/2 to 3 in: Pcm 0.268 and H8 (counted as 10 ml) give index 4.2, group D, 265 °F (from memory).
    const required = page.getByRole('complementary', { name: 'Required preheat' });
    await required.getByText('265 °F').first().waitFor();
    await look(page, 'f-inch-job');
    await required.getByText('Working of each method').click();
    await required.getByText('printed 150 °F').first().waitFor();

    await page.getByText('How hot, and why: every method').click();
    await page.getByRole('heading', { name: 'Every method, side by side' }).waitFor();
    await look(page, 'h-further');

    await page.getByRole('button', { name: 'Enter the joint' }).click();
    await page.getByRole('heading', { name: 'Girder splice 12' }).waitFor();
    const kept = (await (await page.request.get(`${address}api/joints/girder-splice-12`)).json()) as JointState;
    expect(kept.joint.parts.map(({ thicknessMillimetres }) => thicknessMillimetres)).toEqual([44.45, 44.45]);

    await page.getByRole('link', { name: 'How hot, and why' }).first().click();
    await page.getByRole('heading', { name: 'Girder splice 12: required preheat' }).waitFor();
    await page.getByText('265 °F').first().waitFor();
    await page.getByRole('heading', { name: 'Every method, side by side' }).waitFor();
    await look(page, 'g-requirement');
  });
});
