/**
 * A real browser for a test file: started before its first test, ended after its last. Every page is fresh, and
 * whatever the page says on its console as an error, throws, or cannot load makes the test fail.
 *
 * Where there is no browser, `describe.skipIf(noBrowser)` skips; `npm test` counts it with its reason.
 */
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, onTestFinished } from 'vitest';
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

/** To be called at the top of a test file. */
export function useBrowser(): TestBrowser {
  let browser: Browser | undefined;
  beforeAll(async () => {
    if (program !== undefined) browser = await chromium.launch({ executablePath: program, args: flags });
  });
  afterAll(() => browser?.close());
  return {
    async page(options = {}, expected) {
      if (browser === undefined) throw new Error('there is no browser; use describe.skipIf(noBrowser)');
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
