/**
 * The main job as a person does it, in a real browser against a real station: enter the joint, heat, wait until it
 * is ready, weld, see to an alarm, close, print. The day passes on a clock that the test moves.
 */
import { spawnSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { act, look, sayWho, sentence, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const jointFile = new URL('../../demo-data/demonstration-joint.json', import.meta.url);
const joint = readDemonstrationJoint(jointFile);
const channelOf = (probe: string): number => joint.probes.find(({ id }) => id === probe)!.channel;

/** The words of a PDF, page by page; undefined where this machine has no reader. */
const textOf = (paper: Buffer): string | undefined => {
  const { status, stdout } = spawnSync('pdftotext', ['-layout', '-', '-'], { input: paper, maxBuffer: 50_000_000 });
  return status === 0 ? stdout.toString('utf8') : undefined;
};

describe.skipIf(noBrowser)('the whole job', () => {
  const browser = useBrowser();

  test('from entering the joint to the printed report', { timeout: testPatience }, async () => {
    const { address, board, play } = await openWorkshop(joint);
    const page = await tablet(browser);
    await page.goto(address);

    // Entering: from a file, and one thing changed by hand.
    await page.getByText('No joint yet').waitFor();
    await sayWho(page, 'Runa Teld', 'coordinator');
    await page.getByRole('link', { name: 'Enter the first joint' }).click();
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Open a joint file' }).click();
    await (await chooser).setFiles(fileURLToPath(jointFile));
    await page.getByLabel('Title').fill('Base plate 7, butt weld');
    await page.getByLabel('Short name').fill('base-plate-7');
    await page.getByLabel('Minimum preheat').fill('150');
    const required = page.getByRole('complementary', { name: 'Required preheat' });
    await required.getByText('150 °C').first().waitFor();
    await required.getByText('procedure', { exact: false }).first().waitFor();
    await look(page, '1-entering');
    await page.getByRole('button', { name: 'Enter the joint' }).click();

    // Cold: not ready, and why.
    await page.getByRole('heading', { name: 'Base plate 7, butt weld' }).waitFor();
    await page.getByText('SIMULATED').first().waitFor();
    await sentence(page)
      .filter({ hasText: /^Not ready:.*2\d\s°C of 150\s°C/ })
      .waitFor();
    await look(page, '2-cold');

    // Heating: recorded on the screen, done at the part. Most of an hour later the list says how it stands.
    await act(page, /^Heat on/, /Record heat on/, async () => {});
    board.heater({ on: true, setPointCelsius: 168 });
    await page.getByRole('link', { name: 'Joints' }).click();
    await play(minutes(48));
    await page.getByText('Base plate 7, butt weld').first().waitFor();
    await look(page, '3-joints');
    await page.getByRole('link', { name: /Base plate 7/ }).click();
    await sentence(page)
      .filter({ hasText: /^Not ready:.*1[0-4]\d(\.\d)?\s°C of 150\s°C.*about\s\d+/ })
      .waitFor();
    await look(page, '4-heating');
    await page.getByRole('link', { name: 'Joints' }).click();
    await play(minutes(22));
    await page.getByRole('link', { name: /Base plate 7/ }).click();
    await sentence(page)
      .filter({ hasText: /^Ready: coldest .*15\d/ })
      .waitFor();
    await look(page, '5-ready');

    // A probe comes loose: an alarm in words, seen by name.
    board.inject({ kind: 'channel', channel: channelOf('zone A'), mishap: 'open' });
    await play(minutes(1));
    const alarms = page.getByRole('region', { name: 'Alarms', exact: true });
    await alarms.getByText('Probe fault at zone A: its place is not judged').waitFor();
    await look(page, '8-alarm');
    await alarms.getByRole('button', { name: /^Acknowledge: Probe fault at zone A/ }).click();
    await alarms.getByText(/by Runa Teld/).waitFor();
    board.inject({ kind: 'channel', channel: channelOf('zone A'), mishap: 'none' });
    await play(minutes(2));
    await alarms.waitFor({ state: 'detached' });
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();

    // First pass.
    await act(page, /^Start pass/, /^Start pass 1$/, async (form) => {
      await look(page, '6-start');
      await form.getByLabel('Welder').fill('Odd Varen');
    });
    board.arc(true);
    await sentence(page)
      .filter({ hasText: /^Pass 1 running/ })
      .waitFor();
    await play(minutes(8));
    await look(page, '7-welding');
    await act(page, /^End pass/, /^End pass 1$/, async () => {});
    board.arc(false);

    // Second pass, begun at once and too hot: named so, not blocked.
    await page.getByRole('button', { name: /^Start pass\s*conditions not met/ }).click();
    await page.getByText('This pass will be recorded as begun outside the conditions:').waitFor();
    await look(page, '9-outside');
    // On a phone, too, nothing of the form lies beyond the edge.
    await page.setViewportSize({ width: 390, height: 844 });
    const button = page.getByRole('button', { name: 'Start pass 2 outside the conditions' });
    await expect
      .poll(async () => {
        const box = await button.boundingBox();
        return box === null ? Number.NaN : box.x + box.width;
      })
      .toBeLessThanOrEqual(390);
    await page.setViewportSize({ width: 1180, height: 820 });
    await button.click();
    await sentence(page)
      .filter({ hasText: /^Pass 2 running/ })
      .waitFor();
    await play(minutes(1));
    await act(page, /^End pass/, /^End pass 2$/, async () => {});
    const passes = page.getByRole('region', { name: 'Passes' });
    await passes.getByText(/begun outside: .*interpass/).waitFor();
    await passes.getByText(/maximum not met/).waitFor();

    // By hand: a contact reading and a note.
    await act(page, /^Contact reading/, /Record the reading/, async (form) => {
      await form.getByLabel('It reads').fill('231,5');
      await form.getByLabel('Instrument').fill('contact thermometer 12');
    });
    await act(page, /^Note$/, /Record the note/, async (form) => {
      await form.getByLabel('What should be known later').fill('Draught from the gate until noon.');
    });

    // Closing and printing.
    await act(page, /^Close the joint$/, /^Close the joint$/, async (form) => {
      await form.getByText(/^Does not comply:/).waitFor();
    });
    await sentence(page)
      .filter({ hasText: /^Closed: does not comply/ })
      .waitFor();
    await look(page, 'a-closed');
    const report = await page.request.get(
      new URL((await page.getByRole('link', { name: 'Report (PDF)' }).getAttribute('href')) ?? '', address).href,
    );
    expect(report.headers()['content-type']).toBe('application/pdf');
    const paper = await report.body();
    expect(paper.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    const printed = textOf(paper);
    // Where no reader of PDF is installed this part is not checked here; tests/rooms/report reads it by other means.
    if (printed !== undefined) {
      expect(printed).toMatch(/does not comply/i);
      expect(printed).toMatch(/simulated/i);
      expect(printed).toMatch(/Odd Varen/);
      expect(printed).toMatch(/Draught from the gate until noon/);
      expect(printed).toMatch(/Runa Teld/);
    }
    const csv = page.waitForEvent('download');
    await page.getByRole('link', { name: 'Readings (CSV)' }).click();
    const readings = await readFile(await (await csv).path(), 'utf8');
    expect(readings.split(/\r?\n/).filter((row) => row.includes('zone A')).length).toBeGreaterThan(900);
    await page.getByRole('link', { name: 'All entries' }).click();
    await page.getByRole('cell', { name: 'Note: Draught from the gate until noon.' }).waitFor();
    await page.getByRole('cell', { name: /Contact reading 231.5 °C/ }).waitFor();
    await look(page, 'b-record');

    // Its readings go out of the record into the package, which is looked at first; and come back.
    await page.getByRole('link', { name: 'Back to the joint' }).click();
    await page.getByText('Take the readings out of the record').click();
    const fetched = page.waitForEvent('download');
    await page.getByRole('link', { name: 'Fetch the package (ZIP)' }).click();
    const packaged = {
      name: 'joint.zip',
      mimeType: 'application/zip',
      buffer: await readFile(await (await fetched).path()),
    };
    await page.getByLabel('The package of this joint (.zip)').setInputFiles(packaged);
    await page.getByText(/^The package is intact and holds all \d+ scans/).waitFor();
    const remove = page.getByRole('button', { name: 'Remove the readings in my name' });
    await remove.click();
    await page.getByRole('alert').filter({ hasText: 'the reason stands in the record' }).waitFor();
    await page.getByLabel('Why they are removed').fill('The record became too large.');
    await look(page, 'c-removing');
    await remove.click();
    await page
      .getByText(/scans were removed from the record .* by Runa Teld, coordinator: The record became/)
      .waitFor();
    await page.getByText('Does not comply').first().waitFor();
    expect(await page.getByRole('link', { name: 'Readings (CSV)' }).count()).toBe(0);
    await look(page, 'd-removed');
    await page.getByLabel('The package that holds them (.zip)').setInputFiles(packaged);
    await page.getByRole('button', { name: 'Put the readings back in my name' }).click();
    await page.getByRole('link', { name: 'Readings (CSV)' }).waitFor();
  });
});
