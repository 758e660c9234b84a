/** Somebody else's log from file to record: dropped, answered, put right, with what was done; kept, and its report opened. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { jointOn } from '../support/pipeline-bench.ts';
import { look, sayWho, tablet, testPatience } from './support/hand.ts';
import { openWorkshop } from './support/workshop.ts';

const joint = jointOn('frame-7', 'L');
const clock = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(11, 19);
/** A logger's own words first; a header that its figures could be taken for; no zone; a row in words. */
const log = [
  'Furnace logger 4711',
  'Interval;10;s',
  'Date;Time;CH1;CH2',
  ...Array.from(
    { length: 180 },
    (_, row) => `25.11.2026;${clock(5 * 3600 + row * 10)};${180 + (row % 3)},5;${182 + (row % 2)},0`,
  ),
  '25.11.2026;05:40:00;open;open',
].join('\r\n');

describe.skipIf(noBrowser)('a log of another instrument', () => {
  const browser = useBrowser();

  test('becomes a record like any other, marked as imported', { timeout: testPatience }, async () => {
    const { address, station } = await openWorkshop(jointOn('frame-6', 'L'));
    const page = await tablet(browser, /422/);
    await page.goto(`${address}#/judge`);
    await sayWho(page, 'Runa Teld', 'inspector');
    await page.getByLabel(/^or a joint file/).setInputFiles({
      name: 'frame-7.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(joint)),
    });
    // Dropped, as it comes from a folder.
    const dropped = await page.evaluateHandle((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], 'furnace.csv'));
      return data;
    }, log);
    await page.getByRole('group').filter({ hasText: 'Log files' }).dispatchEvent('drop', { dataTransfer: dropped });

    // What only a person can say is asked before anything is judged.
    const file = page.getByRole('region', { name: 'furnace.csv' });
    await file.getByText('column names on line 3').waitFor();
    await look(page, 'judge-asked');
    await file.getByLabel('CH1', { exact: true }).selectOption('L-1');
    await file.getByText('"CH1" is probe L-1').waitFor();
    await file.getByLabel('CH2', { exact: true }).selectOption('L-2');
    await page.getByRole('radio', { name: 'degrees Celsius' }).check();
    await page.getByLabel(/^Time zone of the logger's clock/).fill('Europe/Vienna');
    await page.getByRole('button', { name: 'Take it' }).click();
    await file.getByText('clock of Europe/Vienna').waitFor();
    // What was found, or said for all files, is put right for this one.
    await file.getByLabel(/^Time zone of its clock/).fill('Europe/Berlin');
    await file.getByLabel(/^Time zone of its clock/).blur();
    await file.getByText('clock of Europe/Berlin').waitFor();
    await look(page, 'judge-put-right');
    await file.getByText('Passed over, line by line (2)').click();
    await file.getByText('line 1: above the header: Furnace logger 4711').waitFor();

    const acts = page.getByRole('region', { name: 'What was done' });
    for (const [kind, when] of [
      ['heat on', '25.11.2026 05:00:00'],
      ['heat off', '25.11.2026 05:20:00'],
      ['pass start', '25.11.2026 05:22:00'],
    ] as const) {
      await acts.getByLabel('What', { exact: true }).selectOption(kind);
      await acts.getByLabel('When').fill(when);
      if (kind === 'pass start') await acts.getByLabel('Pass', { exact: true }).fill('1');
      await acts.getByLabel('Who').fill('Odd Varen');
      await acts.getByRole('button', { name: 'Add it' }).click();
      await acts.getByText(`${when}: ${kind}`).waitFor();
    }
    await page.getByRole('heading', { name: 'Keep it as a record' }).waitFor();
    await look(page, 'judge-answered');
    const deviations = page.getByRole('region', { name: /deviations? needs? an answer/ });
    await deviations.getByText('Accept as it is').first().click();
    await page.getByRole('button', { name: 'Keep as a record' }).click();
    await page.getByText('Give the reason for each decision: it stands in the record.').waitFor();
    await look(page, 'judge-deviations');
    await deviations.getByLabel('Reason').fill('looked at with a second instrument');
    await page.getByRole('button', { name: 'Keep as a record' }).click();
    await page.getByText('Kept as joint frame-7').waitFor();
    await look(page, 'judge-kept');

    await page.getByRole('link', { name: 'Open it' }).click();
    await page
      .getByText(/Imported from a log: this station did not measure it/)
      .first()
      .waitFor();
    await look(page, 'judge-joint');
    const report = await page.request.get(`${address}api/joints/frame-7/report.pdf?zone=UTC`);
    expect([report.status(), (await report.body()).subarray(0, 5).toString()]).toEqual([200, '%PDF-']);
    await page.goto(`${address}#/joint/frame-7/record`);
    await page.getByText('Odd Varen').first().waitFor();
    await page.getByText('looked at with a second instrument').first().waitFor();
    await look(page, 'judge-record');
    await page.goto(`${address}#/`);
    await page.getByText('Imported').first().waitFor();
    await look(page, 'judge-overview');
    expect(station.pipeline.run('frame-7')).toBeUndefined();
    await supposing(page, `${address}#/joint/frame-7/what-if`);
  });
});

/** What if, over the joint that was kept: refused with what to do, then answered, marked, beside what is. */
async function supposing(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.getByText('WHAT IF, NOT THE RECORD').first().waitFor();
  const ask = () => page.getByRole('button', { name: 'Judge it so' }).click();
  const refusedWith = (words: string) => page.getByRole('alert').filter({ hasText: words }).waitFor();
  await page.getByLabel('More time', { exact: true }).fill('two');
  await ask();
  await refusedWith('"two" is no number: digits, with one point or comma.');
  await page.getByLabel('More time', { exact: true }).fill('90');
  await ask();
  await refusedWith('Found the number 90; allowed: ');
  await page.getByText('One probe left out').click();
  await page.getByLabel('Probe', { exact: true }).selectOption('L-2');
  await page.getByLabel('As it stood at').fill('noon');
  await ask();
  await refusedWith('"noon" is no moment: a time as 13:05');
  await page.getByLabel('As it stood at').fill('2026-11-24 05:00');
  await ask();
  await refusedWith('before the joint was opened');
  await look(page, 'what-if-refused');
  await page.getByLabel('As it stood at').fill('');
  await ask();
  const answer = page.getByRole('region', { name: 'If L-2 had never been fitted' });
  await answer.getByText('WHAT IF, NOT THE RECORD').waitFor();
  expect(await answer.getByRole('status').textContent()).toMatch(/^Judged today: .+ It would be/);
  expect(await answer.getByRole('columnheader').allTextContents()).toEqual(['Moment', 'As it was', 'Would have been']);
  await answer.getByText('The place of the probe is taken as one that nobody measured.').waitFor();
  await look(page, 'what-if-answered');
}
