/** Ports and instruments as whoever sets them up sees them: what is wrong with a link, and an instrument from its manual to its readings. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import modbus from 'modbus-serial';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, onTestFinished, test } from 'vitest';
import { waitingFolderOf } from '../../server/record/instrument-files.ts';
import { keptConnections } from '../../server/station/kept-connections.ts';
import { readCapture } from '../../server/wire/capture.ts';
import { openPseudoTerminal } from '../../server/wire/pseudo-terminal.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { jointOn } from '../support/pipeline-bench.ts';
import { look, tablet, testPatience } from './support/hand.ts';
import { openWorkshop } from './support/workshop.ts';

const joint = jointOn('frame-8', 'L');

describe.skipIf(noBrowser)('the page of links', () => {
  const browser = useBrowser();

  test('tells how a port is read, shows its lines, keeps them, and says what is wrong', {
    timeout: testPatience,
  }, async () => {
    const { address, board, play } = await openWorkshop(joint);
    const page = await tablet(browser);
    await page.goto(`${address}#/links`);
    const link = page.getByRole('article', { name: 'cable to the board' });
    await link.getByRole('heading', { name: 'L simulated' }).waitFor();
    await link.getByText('Reads well.').waitFor();
    await link.getByText(/lines a second · \d+ good · 0 not taken · 0 readings missing/).waitFor();

    await link.getByRole('button', { name: 'Show the lines' }).click();
    const lines = link.getByRole('list', { name: 'Lines of cable to the board' });
    await lines
      .getByText(/^hello revision=1 board=L/)
      .first()
      .waitFor();
    await play(5000);
    const before = await lines.getByText(/^sample boot=1 /).count();
    await play(5000);
    await expect.poll(() => lines.getByText(/^sample boot=1 /).count()).toBeGreaterThan(before);

    await link.getByRole('button', { name: 'Capture 10 min' }).click();
    await link.getByText('The capture runs; it is listed below.').waitFor();
    for (let count = 0; count < 6; count += 1) {
      board.inject({ kind: 'cut line' });
      await play(15_000);
    }
    await link.getByText(/^6 of \d+ lines came damaged.*look at the cable/).waitFor();
    await lines
      .getByText(/not taken: /)
      .first()
      .waitFor();
    await look(page, 'links-damaged');

    await link.getByRole('button', { name: 'End the capture' }).click();
    const captures = page.getByRole('region', { name: 'Captures' });
    const [download] = await Promise.all([page.waitForEvent('download'), captures.getByRole('link').first().click()]);
    const kept = readCapture(readFileSync(await download.path(), 'latin1'));
    expect(kept).toMatchObject({ port: 'cable to the board' });

    board.inject({ kind: 'unplugged' });
    await play(30_000);
    await link.getByText('Not read', { exact: true }).waitFor();
    await link.getByText(/^Nothing comes from this port\. See that the board has power/).waitFor();
    await link.getByRole('button', { name: 'Try again' }).click();
    await link.getByText('It is tried now.').waitFor();
    await look(page, 'links-lost');
    board.inject({ kind: 'plugged in' });
    await play(30_000);
    await link.getByText('Reading', { exact: true }).waitFor();
  });
});

const terminal = noBrowser ? undefined : await openPseudoTerminal();
const subject = `setting up an instrument${terminal === undefined ? ' (skipped: there is no browser, or this system has no pseudo-terminal)' : ''}`;

describe.skipIf(terminal === undefined)(subject, () => {
  const browser = useBrowser();

  test('from its manual to its readings: mistyped, put right, tried, kept, and there after a reload', {
    timeout: testPatience,
  }, async () => {
    const { address, folder, station } = await openWorkshop(joint);
    const page = await tablet(browser, /status of 422/);
    await page.goto(`${address}#/instruments`);

    // An instrument that prints a line when it is asked.
    onTestFinished(() => terminal!.close());
    terminal!.onData((text) => {
      if (text.includes('READ?')) terminal!.write('T1=151.2 T2=OPEN ok\r\n');
    });
    await page.getByLabel('Prints lines of text').check();
    const fields = { 'What people call it': 'Hand meter', 'Name of the instrument': 'METER-1', Channels: '2' };
    await fill(page, { ...fields, Port: `${terminal!.path}0`, 'How a line is written': 'T1={1} T2={2' });
    await fill(page, { 'What is sent to ask': 'READ?\\r\\n', 'What it writes for a broken wire': 'OPEN' });
    await choose(page, { Speed: '9600', Parity: 'none', 'Stop bits': '1', 'Data bits': '8' });
    await choose(page, { 'Type the instrument is set to': 'K' });
    const tryIt = page.getByRole('button', { name: 'Try it: show what is read' });
    await tryIt.click();
    const alert = page.getByRole('alert');
    for (const said of [/^Unit: nothing is chosen; choose one/, /^Decimal mark: nothing is chosen/])
      await alert.getByText(said).waitFor();
    await look(page, 'instruments-asked');
    await choose(page, { Unit: 'C', 'Decimal mark': '.' });
    await tryIt.click();
    await alert.getByText(/^How a line is written: .*a brace } after each {/).waitFor();
    await fill(page, { 'How a line is written': 'T1={1} T2={2} {*}' });
    await tryIt.click();
    const trial = page.getByRole('region', { name: 'METER-1' });
    await trial.getByText(/^no such port .*Plug it in, then see/).waitFor();
    await fill(page, { Port: terminal!.path });
    await tryIt.click();
    await trial.getByRole('heading', { name: 'METER-1: is read' }).waitFor();
    await rowOf(trial, /^1, type K 151 °C 151.2 \d+ s$/).waitFor();
    await rowOf(trial, /^2, type K wire open OPEN \d+ s$/).waitFor();
    expect(keptConnections(folder), 'on trial nothing is kept').toEqual([]);
    expect(station.linkEvents.has(terminal!.path), 'and nothing is read by the station').toBe(false);
    await look(page, 'instruments-trial');
    await page.getByRole('button', { name: 'Keep it: read it from now on' }).click();
    await page.getByText(/^It is kept, and read from now on\. Name it as the board/).waitFor();
    // The same port again is another's already.
    await fill(page, { 'What people call it': 'Hand meter again', 'Name of the instrument': 'METER-2' });
    await tryIt.click();
    await alert.getByText(new RegExp(`${terminal!.path} is read already`)).waitFor();

    // A module on the network.
    const port = await servedModule();
    await page.getByLabel('Modbus on the network').check();
    await fill(page, {
      'What people call it': 'Bay 2',
      'Name of the instrument': 'MODULE-1',
      'One step is worth': '0,1',
    });
    await fill(page, { 'Address on the network': 'http://127.0.0.1', 'Port of that address': String(port) });
    await fill(page, { 'Addresses of the modules': '3', 'Register of channel 1': '1' });
    await fill(page, { 'Raw value of a broken wire': '7fff' });
    await choose(page, {
      'Kind of registers': 'input',
      'The manual counts registers from': '1',
      Number: 'int16',
      Unit: 'C',
    });
    await tryIt.click();
    await alert.getByText(/^Address on the network: .*without http:\/\//).waitFor();
    await fill(page, { 'Address on the network': '127.0.0.1' });
    await tryIt.click();
    const module = page.getByRole('region', { name: 'MODULE-1' });
    await rowOf(module, /^1, type K 150 °C 05DD \d+ s$/).waitFor();
    await rowOf(module, /^2, type K wire open 7FFF \d+ s$/).waitFor();
    await page.getByRole('button', { name: 'Keep it: read it from now on' }).click();
    await page.getByText(/^It is kept, and read from now on/).waitFor();

    await page.reload();
    const kept = page.getByRole('region', { name: 'Read by this station' });
    await kept.getByText('METER-1: is read').waitFor();
    await kept.getByText('MODULE-1: is read').waitFor();
    await look(page, 'instruments-kept');
    expect(keptConnections(folder).map(({ name }) => name)).toEqual(['Bay 2', 'Hand meter']);

    // What goes over their lines can be seen, and captured where it is bytes.
    await page.goto(`${address}#/links`);
    const meter = page.getByRole('article', { name: terminal!.path });
    await meter.getByRole('button', { name: 'Show the lines' }).click();
    await meter
      .getByText(/^T1=151\.2 T2=OPEN/)
      .first()
      .waitFor();
    await meter.getByText('READ?').first().waitFor();
    await meter.getByRole('button', { name: 'Capture 10 min' }).click();
    await meter.getByText('The capture runs; it is listed below.').waitFor();
    const bay = page.getByRole('article', { name: /^127\.0\.0\.1/ });
    await bay.getByRole('button', { name: 'Show the lines' }).click();
    await bay.getByText('slave 3, input registers 0 to 1 (the first is 0)').first().waitFor();
    await bay
      .getByText(/^1501 32767/)
      .first()
      .waitFor();
    expect(await bay.getByRole('button', { name: /Capture/ }).count()).toBe(0);
    await look(page, 'links-instruments');
    await page.goto(`${address}#/instruments`);
    await kept
      .getByRole('listitem')
      .filter({ hasText: 'Hand meter' })
      .getByRole('button', { name: 'Take away' })
      .click();
    await kept.getByRole('button', { name: /^Yes, take Hand meter away/ }).click();
    await kept.getByText('Hand meter', { exact: true }).waitFor({ state: 'detached' });
    // Its file stays, to be changed; what was entered in the fields is behind it, and on this device.
    const file = page.getByLabel('Connection file');
    expect(JSON.parse(await file.inputValue())).toMatchObject({ name: 'Hand meter', unit: 'C' });
    await fill(page, { 'Connection file': '{ "kind": "text' });
    await tryIt.click();
    await alert.getByText(/^The file is not JSON/).waitFor();
    expect(await file.inputValue()).toBe('{ "kind": "text');
    await page.getByRole('button', { name: 'Back to the fields: leave this file' }).click();
    await page.getByLabel('Prints lines of text').check();
    await fill(page, { Channels: '20' });
    await page.reload();
    await tryIt.click();
    await alert.getByText(/^Channels: found "20"; wanted: how many are read, a whole number from 1 to 16/).waitFor();
    await kept.getByText('MODULE-1: is read').waitFor();

    // What a restored record brought along is tried like any other, and not read before.
    mkdirSync(waitingFolderOf(folder));
    const old = { ...(keptConnections(folder)[0] as object), name: 'Bay 1', slaves: [] };
    writeFileSync(join(waitingFolderOf(folder), 'Bay%201.json'), JSON.stringify(old));
    await page.reload();
    const waiting = page.getByRole('region', { name: 'Set up before, and not read yet' });
    await waiting.getByRole('button', { name: 'Try Bay 1' }).click();
    await alert.getByText(/^slaves: found /).waitFor();
    await look(page, 'instruments-waiting');
    await waiting.getByRole('button', { name: 'Leave Bay 1 out' }).click();
    await waiting.waitFor({ state: 'detached' });
  });
});

const fill = async (page: Page, values: Readonly<Record<string, string>>): Promise<void> => {
  for (const [label, value] of Object.entries(values)) await page.getByLabel(label, { exact: true }).fill(value);
};
const choose = async (page: Page, values: Readonly<Record<string, string>>): Promise<void> => {
  for (const [label, value] of Object.entries(values))
    await page.getByLabel(label, { exact: true }).selectOption(value);
};
const rowOf = (within: Locator, name: RegExp): Locator => within.getByRole('row', { name });

/** A module of another maker's library at address 3: 150.1 in tenths, and an open input. */
const servedModule = async (): Promise<number> => {
  const port = await freePort();
  const vector = {
    getInputRegister: (register: number, _address: number, done: (error: unknown, value: number) => void) =>
      done(null, register === 0 ? 1501 : 0x7fff),
  };
  const server = new modbus.ServerTCP(vector as never, { host: '127.0.0.1', port, unitID: 3 });
  onTestFinished(() => new Promise<void>((done) => server.close(() => done())));
  return port;
};

const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });
