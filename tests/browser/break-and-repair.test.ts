/**
 * A whole job that goes wrong: checks before welding, a hold point, a break with its inspection, a pass that is begun too
 * cold, the decision on it, and the repair; gone through by what is written and what it is.
 */
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { look, sayWho, sentence, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const demonstration = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint: Joint = jointSchema.parse({
  ...demonstration,
  id: 'girder-11',
  title: 'Girder 11, lower flange',
  arcSignal: { board: demonstration.probes[0]!.board, input: 1 },
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

describe.skipIf(noBrowser)('a job with a break, a deviation and a repair', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('from the checks before welding to the joint that mends it', async () => {
    const { address, station, board, play } = await openWorkshop(joint, { hot: true });
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
    // At once, without being asked for: from here on it can be carried out of the house.
    await page.getByRole('img', { name: 'QR code of the head' }).waitFor();
    await look(page, 'c-answered');
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('button', { name: /^Checks none open before the next arc/ }).waitFor();
    await conditions.filter({ hasText: 'Hold point not released' }).waitFor({ state: 'detached' });

    // The arc is struck before anybody presses: it is proposed with the time of the signal, and entered by one press.
    board.arc(true);
    await play(20_000);
    await look(page, 'c-arc');
    await page.getByRole('button', { name: /^Arc seen since .*: enter pass 1/ }).click();
    await sentence(page).filter({ hasText: 'Pass 1 running' }).waitFor();
    board.arc(false);
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
    await inspected.getByRole('button', { name: 'Record the inspection' }).click();
    await inspected.getByText('Choose how it was examined.').waitFor();
    await inspected.getByText('MT', { exact: true }).click();
    await inspected.getByText('No indication', { exact: true }).click();
    await inspected.getByRole('button', { name: 'Record the inspection' }).click();
    await page.getByText(/declared by Runa Teld: End of shift; .*inspected by Runa Teld, inspector \(MT\)/).waitFor();
    await look(page, 'c-inspected');
    // On a phone the table of passes scrolls by itself, and the page is no wider than the glass.
    const glass = page.viewportSize()!;
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    await page.setViewportSize(glass);

    // Left to cool, and welded on all the same: nothing is blocked, and it is said before.
    board.heater({ on: false, setPointCelsius: 20 });
    await play(minutes(90));
    await page.getByRole('button', { name: /^Start pass/ }).click();
    await page.getByRole('button', { name: /^Start pass 2 outside the conditions/ }).click();
    await sentence(page).filter({ hasText: 'Pass 2 running' }).waitFor();
    await page.getByRole('button', { name: 'End pass' }).click();
    await page.getByRole('button', { name: 'End pass 2' }).click();
    await page.getByRole('button', { name: /^Welding complete/ }).click();
    await page.getByRole('button', { name: 'Record: welding complete' }).click();

    // Decided one after the other; what is to be repaired is begun from the joint that it mends.
    await page.getByRole('button', { name: /^Deviations \d open/ }).click();
    const decide = page.getByRole('form', { name: 'Decide on a deviation' });
    await look(page, 'c-deviation');
    await decide.getByText('Repair', { exact: true }).click();
    await decide.getByLabel('Reason').fill('Taken out and welded anew');
    await decide.getByRole('button', { name: 'Decide in my name' }).click();
    // The next stands there at once.
    await decide.getByText(/\d open.* 1 to be repaired/).waitFor();
    await decide.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('link', { name: 'Enter a repair of this joint' }).click();
    const background = page.getByRole('group', { name: 'Repair of girder-11' });
    await background.getByLabel('Metal').selectOption('Weld metal');
    await background.getByLabel('Cause').fill('Welded on after an hour without heat');
    await background.getByLabel('Taken out by').selectOption({ index: 1 });
    await background.getByLabel('Depth').fill('12');
    await background.getByLabel('Length').fill('80');
    await background.getByLabel('It is').selectOption('Free of defects');
    await background.getByLabel('Heat treatment before').fill('none');
    await background.getByLabel('Heat treatment after').fill('none');
    await background.getByLabel('Preheat reaches from the excavation').fill('150');
    await page.getByText('High: almost no movement').click();
    await look(page, 'c-repair');
    await page.getByRole('button', { name: 'Enter the joint' }).click();
    await page.getByRole('heading', { name: 'Repair of Girder 11, lower flange' }).waitFor();
    await page.getByText('Welded on after an hour without heat').waitFor();
    await look(page, 'c-repair-joint');
    await page.getByRole('link', { name: 'girder-11', exact: true }).click();
    await page.getByText('Not settled: repair girder-11-r1 is still open').first().waitFor();
  });
});
