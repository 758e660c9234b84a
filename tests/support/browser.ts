/**
 * A real browser, started for the first test that wants it and shared by the files of one process, with which it ends.
 * Every page is fresh, with nothing kept from others, and whatever the page says on its console as an error, throws, or
 * cannot load makes the test fail.
 *
 * Where there is no browser, `describe.skipIf(noBrowser)` skips; `npm test` counts it with its reason.
 */
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { expect, onTestFinished } from 'vitest';
import { installedBrowser } from '../browser-program.mjs';

const program = process.env.PREHEAT_BROWSER ?? installedBrowser();
export const noBrowser = program === undefined;

/** Nothing that goes out to the network, or waits for somebody at the screen. */
const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface TestBrowser {
  /**
   * A page of its own, with nothing kept from others. A browser itself reports each broken request as an error:
   * where the test breaks one, it says what is expected.
   */
  page(options?: BrowserContextOptions, expected?: RegExp): Promise<Page>;
}

let started: Promise<Browser> | undefined;
function startedBrowser(): Promise<Browser> {
  if (program === undefined) throw new Error('there is no browser; use describe.skipIf(noBrowser)');
  started ??= chromium.launch({ executablePath: program, args: flags });
  return started;
}

/** To be called at the top of a test file. */
export function useBrowser(): TestBrowser {
  return {
    async page(options = {}, expected) {
      const browser = await startedBrowser();
      const context = await browser.newContext(options);
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error' && expected?.test(message.text()) !== true) complaints.push(message.text());
      });
      page.on('pageerror', (error) => complaints.push(error.message));
      onTestFinished(async () => {
        await context.close();
        expect(complaints).toEqual([]);
      });
      return page;
    },
  };
}
