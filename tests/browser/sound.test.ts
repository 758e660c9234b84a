/** Sound is switched on by a hand and heard; an alarm sounds on any page until it is acknowledged; a call comes once and outlives a reload. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { look, patience, sentence, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const demonstration = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint = jointSchema.parse({ ...demonstration, id: 'girder-3', title: 'Girder 3, lower flange' });
/** The plates are heated to some 160 °C, which is more than this joint allows: its alarm comes at once. */
const tooHot = jointSchema.parse({
  ...joint,
  heating: { ...joint.heating, setPointCelsius: 150 },
  procedure: { ...joint.procedure, interpassMaximumCelsius: 150, highestCelsius: 150 },
});
const waiting = { timeout: patience, interval: 250 };

/** Pitches that the page has sounded, as the browser's own sound nodes were asked for them. */
async function listening(page: Page): Promise<() => Promise<number[]>> {
  await page.addInitScript(() => {
    const heard: number[] = [];
    (globalThis as unknown as { heard: number[] }).heard = heard;
    globalThis.OscillatorNode = class extends OscillatorNode {
      constructor(context: BaseAudioContext, options?: OscillatorOptions) {
        super(context, options);
        heard.push(options?.frequency ?? 0);
      }
    };
  });
  return () => page.evaluate(() => (globalThis as unknown as { heard: number[] }).heard.splice(0));
}

/** What the page asked the system to show, where a person has allowed it. */
async function notified(page: Page): Promise<() => Promise<string[]>> {
  await page.addInitScript(() => {
    const shown: string[] = [];
    const allowed = class {
      static permission = 'granted';
      constructor(title: string, { body }: NotificationOptions) {
        shown.push(`${title}: ${body}`);
      }
    };
    Object.assign(globalThis, { Notification: allowed, shown });
  });
  return () => page.evaluate(() => (globalThis as unknown as { shown: string[] }).shown.splice(0));
}

/** Run in the page: another page or another window stands before it, or no longer. */
function turn(state: string): void {
  Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => state });
}

describe.skipIf(noBrowser)('on this device', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('sound is off until a hand switches it on, is heard at once, and sleeps visibly after a reload', async () => {
    const { address } = await openWorkshop(joint);
    const page = await tablet(browser);
    const heard = await listening(page);
    await page.goto(address);
    await page.getByRole('button', { name: 'Sound off' }).click();
    expect(await heard()).toEqual([]);
    await page.getByRole('button', { name: 'Switch sound on and hear it' }).click();
    await page.getByRole('button', { name: 'Sound on' }).waitFor();
    expect(await heard()).toEqual([988, 988, 988]);
    await page.getByRole('button', { name: 'Hear: Alarm, when you can' }).click();
    expect(await heard()).toEqual([494]);
    await look(page, 'sound');
    await page.reload();
    await page.getByRole('button', { name: 'Sound sleeps' }).waitFor();
    await page.getByRole('heading', { name: 'Joints' }).click();
    await page.getByRole('button', { name: 'Sound on' }).waitFor();
  });

  test('an alarm sounds on another page than the joint’s until somebody acknowledges it', async () => {
    const { address, station, play } = await openWorkshop(tooHot, { hot: true });
    const page = await tablet(browser);
    const heard = await listening(page);
    const shown = await notified(page);
    await page.goto(address);
    await page.getByRole('button', { name: 'Sound off' }).click();
    await page.getByRole('button', { name: 'Switch sound on and hear it' }).click();
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await heard();
    await page.evaluate(turn, 'hidden');
    const opened = station.pipeline.open(tooHot, 'Runa Teld');
    await play(minutes(1));
    await opened;
    await expect.poll(heard, waiting).toContain(988);
    expect(await shown(), 'whoever looks elsewhere is notified').toContainEqual(
      expect.stringMatching(/^Girder 3, lower flange: .*hot/i),
    );
    await page.evaluate(turn, 'visible');
    for (const { key } of station.pipeline.run(tooHot.id)!.assessment.alarms)
      void station.pipeline.act(tooHot.id, { who: { name: 'Runa Teld' }, act: { kind: 'acknowledge', alarm: key } });
    await expect
      .poll(
        () =>
          station.pipeline
            .run(tooHot.id)!
            .assessment.alarms.filter(({ state, suppressed }) => state === 'active' && suppressed === undefined),
        waiting,
      )
      .toEqual([]);
    await page.waitForTimeout(2_000);
    await heard();
    await page.waitForTimeout(4_000);
    expect(await heard(), 'longer than its pace').toEqual([]);
  });

  test('a call outlives a reload, comes once with its own sound, and goes when it is seen', async () => {
    const { address, station, play } = await openWorkshop(joint, { hot: true });
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(minutes(1));
    await opened;
    const page = await tablet(browser);
    const heard = await listening(page);
    const shown = await notified(page);
    await page.goto(`${address}#/joint/girder-3`);
    const wish = page.getByRole('button', { name: '2 min before it is ready' });
    await wish.click();
    await look(page, 'call-asked');
    await page.reload();
    await expect.poll(() => wish.getAttribute('aria-pressed'), waiting).toBe('true');
    await page.getByRole('button', { name: 'Sound off' }).click();
    await page.getByRole('button', { name: 'Switch sound on and hear it' }).click();
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await heard();
    await play(minutes(18));
    await sentence(page)
      .filter({ hasText: /^Ready:/ })
      .waitFor();
    const called = page.getByRole('alert').filter({ hasText: /Girder 3, lower flange: (it is ready|ready in about)/ });
    await called.waitFor();
    expect(await heard()).toEqual(expect.arrayContaining([523, 659, 784]));
    expect(await shown(), 'the page itself says it to whoever looks at it').toEqual([]);
    await look(page, 'called');
    await called.getByRole('button', { name: 'Seen' }).click();
    await called.waitFor({ state: 'detached' });
    await page.waitForTimeout(7_000);
    expect(await called.count(), 'asked again meanwhile, not told again').toBe(0);
  });
});
