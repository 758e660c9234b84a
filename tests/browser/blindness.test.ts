/** Each way in which the screen does not see is said at once, loudly, and in words of its own. Bounds: web/feed/bounds.ts. */
import type { Page } from 'playwright-core';
import { describe, expect, onTestFinished, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { watchFrames } from './support/frames.ts';
import { look, patience, sentence, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop, type Workshop } from './support/workshop.ts';

const joint = jointSchema.parse({
  ...readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url)),
  id: 'girder-3',
  title: 'Girder 3, lower flange',
});
const brokenLine = /Failed to load resource: net::|WebSocket connection to/;
const seconds = (count: number): number => count * 1000;
/** The colour that covers a page that stands still: --alarm-fill. */
const alarmRed = [179, 38, 30] as const;

async function watched(of: Joint = joint): Promise<Workshop> {
  const workshop = await openWorkshop(of);
  const opened = workshop.station.pipeline.open(of, 'Runa Teld');
  await workshop.play(seconds(20));
  await opened;
  return workshop;
}

/** A page whose device keeps the station's time, but for `ahead`. */
async function onPage({ address, now }: Workshop, ahead = 0, browser: ReturnType<typeof useBrowser>): Promise<Page> {
  const page = await tablet(browser, brokenLine);
  await page.addInitScript(
    (lead) => {
      const real = Date.now;
      Date.now = () => real() + lead;
    },
    now() + ahead - Date.now(),
  );
  await page.goto(`${address}#/joint/girder-3`);
  await sentence(page).waitFor();
  return page;
}

const alert = (page: Page, says: string | RegExp) => page.getByRole('alert').filter({ hasText: says });
/** What stands over the page; alarms of the joint are another matter. */
const banners = (page: Page): Promise<string[]> => page.getByRole('alert').and(page.locator('.banner')).allInnerTexts();

describe.skipIf(noBrowser)('blind', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('is nobody while all is heard; then the line breaks, the station says nothing, nothing is recorded', async () => {
    const workshop = await watched();
    const page = await onPage(workshop, 0, browser);
    // A line that never stood cannot break: the page then says that it has heard nothing.
    await page.getByRole('banner').getByText('Live').waitFor();
    expect(await banners(page)).toEqual([]);

    workshop.line.cut();
    await alert(page, 'The line to the station is broken').waitFor();
    expect(await alert(page, 'The line stands').count()).toBe(0);
    await sentence(page)
      .filter({ hasText: /^No word from the station/ })
      .waitFor();
    await look(page, 'blind-line');
    workshop.line.mend();
    await alert(page, 'The line to the station is broken').waitFor({ state: 'detached' });

    workshop.standStill();
    await alert(page, /No word from the station .* The line stands/s).waitFor();
    workshop.goOn();
    await alert(page, 'No word from the station').waitFor({ state: 'detached' });

    workshop.disk.break();
    await alert(page, 'NOT RECORDING.').waitFor();
    workshop.disk.mend();
    await alert(page, 'NOT RECORDING.').waitFor({ state: 'detached' });
    expect(await banners(page)).toEqual([]);
  });

  test('a probe from which nothing ever came', async () => {
    const absent = joint.probes.map((probe) => (probe.id === 'zone B' ? { ...probe, board: 'board-away' } : probe));
    const page = await onPage(await watched({ ...joint, probes: absent }), 0, browser);
    await alert(page, 'No data: nothing has ever come from zone B').waitFor();
    expect(await alert(page, 'Old data').count()).toBe(0);
    await look(page, 'blind-no-data');
  });

  test('probes that fell silent', async () => {
    const workshop = await watched();
    const page = await onPage(workshop, 0, browser);
    workshop.board.inject({ kind: 'unplugged' });
    await workshop.play(seconds(30));
    await alert(page, /Old data: .*zone A.* not heard for/).waitFor();
    expect(await alert(page, 'No data').count()).toBe(0);
    workshop.board.inject({ kind: 'plugged in' });
    await workshop.play(seconds(30));
    await alert(page, 'Old data').waitFor({ state: 'detached' });
  });

  test('a clock of this device that is wrong, and one of the station that was set back', async () => {
    const workshop = await watched();
    const page = await onPage(workshop, minutes(5), browser);
    await alert(page, /The clock of this device is (5 min|4 min 5\d s|5 min \d s) ahead of the station's/).waitFor();
    await look(page, 'blind-clock');
    workshop.setClock(-minutes(10));
    await alert(page, /The station's clock was set back by 10 min at \d\d:\d\d:\d\d/).waitFor();
  });

  test('a page in the background says for how long; one that hangs is covered by the browser itself within seconds', async () => {
    const page = await onPage(await watched(), 0, browser);
    await page.evaluate(turn, 'hidden');
    await page.waitForTimeout(seconds(6));
    expect(await alert(page, 'in the background').count()).toBe(0);
    await page.evaluate(turn, 'visible');
    await alert(page, /This page was in the background for \d+ s\. It has caught up/).waitFor();

    const onlooker = await tablet(browser);
    const frames = await watchFrames(page);
    onTestFinished(() => frames.stop());
    expect(await frames.partOf(alarmRed, onlooker)).toBeLessThan(0.1);
    const hung = page.evaluate(hang, seconds(20));
    const patient = { timeout: seconds(15), interval: 250 };
    await expect.poll(() => frames.partOf(alarmRed, onlooker), patient).toBeGreaterThan(0.5);
    await hung;
    await expect.poll(() => frames.partOf(alarmRed, onlooker), { ...patient, timeout: patience }).toBeLessThan(0.1);
    await alert(page, /This page stood still for \d+ s/).waitFor();
  });
});

/** Run in the page: a tab that is put behind another, as its program is told of it. */
function turn(state: string): void {
  Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => state });
  document.dispatchEvent(new Event('visibilitychange'));
}

function hang(milliseconds: number): void {
  const end = performance.now() + milliseconds;
  while (performance.now() < end);
}
