/**
 * Checks before welding, a hold point, and a break with its inspection, gone through as a welder and an inspector do: by
 * what is written and what it is.
 */
import { describe, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { look, sayWho, sentence, tablet, testPatience } from './support/hand.ts';
import { openWorkshop } from './support/workshop.ts';

const demonstration = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint: Joint = jointSchema.parse({
  ...demonstration,
  id: 'girder-11',
  title: 'Girder 11, lower flange',
  procedure: {
    ...demonstration.procedure,
    ambientCheck: 'not asked',
    checks: [
      { id: 'clean', text: 'Joint clean and dry', weight: 'blocks' },
      { id: 'welder', text: 'Welder qualified', weight: 'blocks', role: 'inspector' },
    ],
    points: [{ id: 'H1', text: 'Release for welding', kind: 'hold', before: 'first pass', role: 'inspector' }],
    breaks: { afterMinutes: 20, keptWarm: ['inspection'], fellBelow: ['soak again', 'inspection'] },
  },
});

/** One pixel: as much of a photo as a check needs here. */
const photo = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

describe.skipIf(noBrowser)('before welding and in a break', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('checks are answered with a photo, the hold point is released, and the break asks for its inspection', async () => {
    const { address, station, play } = await openWorkshop(joint, { hot: true });
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(20_000);
    await opened;
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/girder-11`);
    await sentence(page)
      .filter({ hasText: /^Not ready/ })
      .waitFor();
    const conditions = page.getByRole('definition');
    await conditions.filter({ hasText: 'Checks before welding not answered: Joint clean and dry' }).waitFor();
    await conditions.filter({ hasText: 'Hold point not released: H1, Release for welding' }).waitFor();
    await sayWho(page, 'Runa Teld', 'inspector');

    await page.getByRole('button', { name: /^Checks 3 open/ }).click();
    await look(page, 'c-list');
    await page.getByRole('button', { name: /^Joint clean and dry/ }).click();
    const clean = page.getByRole('form', { name: 'Joint clean and dry' });
    await clean.getByRole('button', { name: 'Record the answer' }).click();
    await clean.getByText('Choose an answer.').waitFor();
    await clean.getByText('In order', { exact: true }).click();
    await clean
      .getByLabel('Photo, if one helps')
      .setInputFiles({ name: 'groove.png', mimeType: 'image/png', buffer: photo });
    await clean.getByRole('button', { name: 'Record the answer' }).click();
    await page.getByRole('button', { name: /^Joint clean and dry In order, Runa Teld, inspector.*photo/ }).waitFor();
    await page.getByRole('button', { name: /^Welder qualified/ }).click();
    const welder = page.getByRole('form', { name: 'Welder qualified' });
    await welder.getByText('In order', { exact: true }).click();
    await welder.getByRole('button', { name: 'Record the answer' }).click();
    await page.getByRole('button', { name: /^Release for welding/ }).click();
    await page.getByRole('form', { name: 'Release for welding' }).getByRole('button', { name: 'Release' }).click();
    await page.getByRole('button', { name: /^Release for welding .*released by Runa Teld/ }).waitFor();
    await look(page, 'c-answered');
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('button', { name: /^Checks before welding: all done/ }).waitFor();
    await conditions.filter({ hasText: 'Hold point not released' }).waitFor({ state: 'detached' });

    await page.getByRole('button', { name: /^Start pass/ }).click();
    await page.getByRole('button', { name: /^Start pass 1/ }).click();
    await sentence(page).filter({ hasText: 'Pass 1 running' }).waitFor();
    await page.getByRole('button', { name: 'End pass' }).click();
    await page.getByRole('button', { name: 'End pass 1' }).click();
    await page.getByRole('button', { name: /^Break/ }).click();
    const pause = page.getByRole('form', { name: 'Break' });
    await pause.getByRole('button', { name: 'Record the break' }).click();
    await pause.getByText('Why is welding interrupted?').waitFor();
    await pause.getByText('End of shift', { exact: true }).click();
    await look(page, 'c-break');
    await pause.getByRole('button', { name: 'Record the break' }).click();
    await page.getByText('Interrupted, now').waitFor();
    await conditions.filter({ hasText: 'Inspection after the break asked for' }).waitFor();
    await look(page, 'c-interrupted');

    await page.getByRole('button', { name: /^Inspect/ }).click();
    const inspected = page.getByRole('form', { name: 'Break' });
    await inspected.getByText('No indication', { exact: true }).click();
    await inspected.getByRole('button', { name: 'Record the inspection' }).click();
    await page.getByText(/declared by Runa Teld: End of shift; .*inspected by Runa Teld, inspector \(MT\)/).waitFor();
    await look(page, 'c-inspected');
  });
});
