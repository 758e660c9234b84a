/** The built pages come up in a real browser, ask nothing of other hosts, and name what they show. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { instant } from '../../server/measure/quantity.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { type FakeStation, startFakeStation } from '../support/fake-station.ts';
import { girderScript } from '../support/station/scripts.ts';

const pages = join(import.meta.dirname, '..', '..', '.build', 'web');

describe.skipIf(noBrowser)('first look', () => {
  const browser = useBrowser();
  let station: FakeStation;

  beforeAll(async () => {
    expect(existsSync(join(pages, 'index.html')), 'the pages are built by npm test or npm run build').toBe(true);
    const now = instant(Date.UTC(2026, 2, 2, 6, 0, 0));
    station = await startFakeStation({ scripts: [{ script: girderScript, minutes: 30 }], now, port: 0, pages });
  });
  afterAll(() => station.stop());

  test('the list of joints names the joint, and nothing is asked of another host', async () => {
    const page = await browser.page();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).origin));
    await page.goto(station.address);
    await page.getByText(girderScript.joint.title).first().waitFor();
    expect([...new Set(asked)]).toEqual([new URL(station.address).origin]);
  });
});
