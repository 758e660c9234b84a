/** What a person does at the screen, found as a person finds it: by what is written and what it is. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import type { TestBrowser } from '../../support/browser.ts';

/** Longest wait for what has to come, and time for one test: bounds for a machine that is busy with much else. */
export const patience = 30_000;
export const testPatience = 180_000;

/** A tablet in the workshop's own time zone. Where a test fails, what stood on the page is kept with the pictures. */
export async function tablet(browser: TestBrowser, expected?: RegExp): Promise<Page> {
  const page = await browser.page({ viewport: devices.tablet, timezoneId: 'Europe/Berlin' }, expected);
  page.setDefaultTimeout(patience);
  onTestFinished(async ({ task }) => {
    if (task.result?.state === 'fail') await look(page, 'failed');
  });
  return page;
}

export async function sayWho(page: Page, name: string, part: string): Promise<void> {
  await page.getByRole('button', { name: 'Say who you are' }).click();
  const form = page.getByRole('form', { name: 'Who acts on this device' });
  await form.getByLabel('Your name').fill(name);
  await form.getByLabel('Your part in this').selectOption(part);
  await form.getByRole('button', { name: 'Act under this name' }).click();
  await page.getByRole('banner').getByText(name).waitFor();
}

/** Presses the large button of that name, fills its form and records it. */
export async function act(page: Page, opens: RegExp, records: RegExp, fill: (form: Locator) => Promise<void>) {
  await page.getByRole('button', { name: opens }).click();
  const form = page.getByRole('form').filter({ has: page.getByRole('button', { name: records }) });
  await fill(form);
  // The button changes its words while the act is sent: the form itself has to go.
  const sheet = await form.elementHandle();
  await form.getByRole('button', { name: records }).click();
  await sheet!.waitForElementState('hidden');
}

/** The one sentence at the top of a joint. */
export const sentence = (page: Page): Locator => page.getByRole('region', { name: 'Readiness' }).getByRole('heading');

/** For whoever wants to see: with PREHEAT_PICTURES set to a folder, the page is kept there as it stands in three sizes. */
export async function look(page: Page, name: string): Promise<void> {
  const folder = process.env.PREHEAT_PICTURES;
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  const before = page.viewportSize();
  for (const [device, size] of Object.entries(devices)) {
    await page.setViewportSize(size);
    await page.screenshot({ path: join(folder, `${name}-${device}.png`) });
    await page.screenshot({ path: join(folder, `${name}-${device}-whole.png`), fullPage: true });
  }
  if (before !== null) await page.setViewportSize(before);
}

const devices = {
  tablet: { width: 1180, height: 820 },
  phone: { width: 390, height: 844 },
  desktop: { width: 1440, height: 900 },
} as const;
