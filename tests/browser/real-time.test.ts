/** In real time, over a real pseudo-terminal: what the board says is on the page within seconds. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { readProgram } from '../../server/program.ts';
import { keepPace, readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { boardOf } from '../../server/station/joint-board.ts';
import { machineClock } from '../../server/station/machine-clock.ts';
import { startStation } from '../../server/station/station.ts';
import { openPseudoTerminal } from '../../server/wire/pseudo-terminal.ts';
import { serialPortOpener } from '../../server/wire/serial-port.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { sentence, tablet, testPatience } from './support/hand.ts';
import { pages } from './support/workshop.ts';

const joint = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));

if (noBrowser) test.skip('readings over a pseudo-terminal');
else {
  const browser = useBrowser();

  test('readings over a pseudo-terminal are on the page within ten seconds, and go on', {
    timeout: testPatience,
  }, async ({ skip }) => {
    const terminal = await openPseudoTerminal();
    if (terminal === undefined) return skip('this system has no pseudo-terminal');
    const home = mkdtempSync(join(tmpdir(), 'preheat-real-time-'));
    const folder = join(home, 'record');
    const clock = machineClock();
    const board = boardOf(joint);
    terminal.onData((bytes) => board.receive(bytes));
    const station = await startStation({
      folder,
      begin: true,
      ports: [terminal.path],
      openPort: serialPortOpener(),
      clock,
      platform: process.platform,
      httpPort: 0,
      host: '127.0.0.1',
      webFolder: pages,
      program: readProgram(),
      tell: () => {},
    });
    const stop = keepPace(clock, board, terminal.write);
    onTestFinished(async () => {
      stop();
      await station.close();
      terminal.close();
      rmSync(home, { recursive: true, force: true });
    });
    await station.pipeline.open(joint, 'Runa Teld');
    const page = await tablet(browser);
    page.setDefaultTimeout(10_000);
    await page.goto(`${station.address}#/joint/demonstration`);
    await sentence(page)
      .filter({ hasText: /^Not ready: .*20\s°C of 145\s°C at/ })
      .waitFor();
    // What comes later is shown too: the heated face warms while the page is looked at.
    board.heater({ on: true, setPointCelsius: 150 });
    await page
      .getByRole('row', { name: /^zone A/ })
      .filter({ hasText: /2[1-9]\s°C/ })
      .waitFor();
    expect(station.links.get(terminal.path)?.counts().linesBad).toBeLessThanOrEqual(1);
  });
}
