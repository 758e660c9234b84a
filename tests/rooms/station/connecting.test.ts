/** Setting up an instrument over HTTP: on trial nothing is recorded; kept, it is read, and read again by the next start. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import express from 'express';
import { expect, onTestFinished, test } from 'vitest';
import type { Actor } from '../../../server/desk/actor.ts';
import { connectionsFolderOf, waitingFolderOf } from '../../../server/record/instrument-files.ts';
import type { ConnectionsView, TrialView } from '../../../server/screen/contract.ts';
import { againstConnections, claimOn, createConnections } from '../../../server/station/connections.ts';
import { connectionsRouter } from '../../../server/station/connections-router.ts';
import { keptConnections } from '../../../server/station/kept-connections.ts';
import { createTrials } from '../../../server/station/trial.ts';
import type { WireEvent } from '../../../server/wire/event.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import type { Link } from '../../../server/wire/serial-link.ts';
import { connectionIn, linesFile, outsideWith, rtuFile, slaveFile } from '../../support/connection-files.ts';
import { createHandClock } from '../wire/hand-clock.ts';

const connection = linesFile({
  name: 'Meter on the bench',
  board: 'METER-1',
  pattern: 'T={1}',
  unit: 'F',
}) as { readonly name: string; readonly unit: string };

const bench = async (own: { actor?: Actor; notKept?: string } = {}) => {
  const home = mkdtempSync(join(tmpdir(), 'preheat-connecting-'));
  const folder = join(home, 'record');
  const clock = createHandClock();
  const cable = createInProcessPort();
  const outside = outsideWith({ serial: () => cable.openPort });
  const events: WireEvent[] = [];
  const links = new Map<string, Link>();
  const connections = createConnections({
    clock,
    platform: 'linux',
    outside,
    links,
    linkEvents: new Map(),
    onEvent: (event) => events.push(event),
    onIdentity: () => {},
  });
  let trials = 0;
  const trial = createTrials({ clock, platform: 'linux', outside, newId: () => `trial-${++trials}` });
  const app = express().use(
    connectionsRouter({
      folder,
      connections,
      trials: trial,
      ports: () => ['COM1'],
      fixed: new Set(),
      actor: () => own.actor ?? 'as named',
      listPorts: () => Promise.resolve([{ path: 'COM3' }]),
      ...(own.notKept === undefined ? {} : { notKept: own.notKept }),
    }),
  );
  const http = createServer(app);
  await new Promise<void>((done) => http.listen(0, '127.0.0.1', done));
  onTestFinished(async () => {
    http.closeAllConnections();
    await new Promise((done) => http.close(done));
    await trial.end();
    await connections.close();
    rmSync(home, { recursive: true, force: true });
  });
  const ask = async (method: string, path: string, body?: unknown) => {
    const response = await fetch(`http://127.0.0.1:${(http.address() as AddressInfo).port}${path}`, {
      method,
      ...(body === undefined ? {} : { headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) }),
    });
    return { status: response.status, body: (await response.json()) as never };
  };
  return { folder, clock, cable, events, links, ask };
};

test('a trial shows what is read, and lets the port go once nobody looks', async () => {
  const { clock, cable, events, ask } = await bench();
  expect(await ask('POST', '/connections/trial', { connection })).toEqual({ status: 201, body: { id: 'trial-1' } });
  await clock.advance(10);
  cable.write('cut\nT=302.0\n?\n');
  await clock.advance(2000);
  const { body } = await ask('GET', '/connections/trial/trial-1');
  expect((body as TrialView).instruments).toEqual([
    {
      board: 'METER-1',
      state: 'open',
      cause: 'board METER-1 answers',
      good: 1,
      errors: [{ what: 'line not understood', times: 1 }],
      last: expect.stringContaining('"?"'),
      channels: [
        {
          channel: 1,
          thermocouple: 'K',
          reading: { quality: 'good', temperature: 150_000, said: '302.0', agoMilliseconds: 2000 },
        },
      ],
    },
  ]);
  expect(events).toEqual([]);
  await clock.advance(40_000);
  expect((await ask('GET', '/connections/trial/trial-1')).status).toBe(404);
});

test('what was kept is read, stands in a file, and is taken away again', async () => {
  const { folder, clock, cable, events, links, ask } = await bench();
  await ask('POST', '/connections/trial', { connection });
  expect((await ask('POST', '/connections', { connection })).status).toBe(201);
  expect(keptConnections(folder)).toEqual([connection]);
  await clock.advance(10);
  cable.write('\nT=212\n');
  await clock.advance(10);
  expect(events.filter(({ type }) => type === 'told')).toHaveLength(1);
  const { body } = await ask('GET', '/connections');
  expect(body as ConnectionsView).toMatchObject({
    connections: [
      { name: 'Meter on the bench', way: 'lines of text', boards: ['METER-1'], place: 'COM3', fixed: false },
    ],
    ports: [{ path: 'COM3' }],
  });
  const twice = await ask('POST', '/connections/trial', { connection });
  expect(twice).toMatchObject({
    status: 422,
    body: {
      problems: [
        { field: 'name', allowed: 'a name that no other connection has; take that one away first to change it' },
      ],
    },
  });
  expect((await ask('DELETE', `/connections/${encodeURIComponent(connection.name)}`)).status).toBe(200);
  expect(events.at(-1)).toMatchObject({ type: 'link', state: 'lost', cause: 'the connection was taken away' });
  expect(links.size).toBe(0);
  expect(readdirSync(connectionsFolderOf(folder))).toEqual([]);
});

test('what cannot be read is told by field; a port of a board stays its own', async () => {
  const { ask } = await bench();
  const { unit: _, ...without } = connection;
  expect(await ask('POST', '/connections/trial', { connection: without })).toMatchObject({
    status: 422,
    body: { problems: [{ field: 'unit', found: 'nothing' }] },
  });
  expect(await ask('POST', '/connections', { connection: { ...connection, port: 'COM1' } })).toMatchObject({
    status: 422,
    body: { problems: [{ field: 'port', found: 'COM1', allowed: expect.stringContaining('COM1 is read already') }] },
  });
});

test('two connections claim no port, under two names either', async () => {
  const { folder } = await bench();
  const [device, lasting] = [`${folder}-ttyUSB0`, `${folder}-by-id`];
  writeFileSync(device, '');
  symlinkSync(device, lasting);
  const one = connectionIn(linesFile({ pattern: 'T={1}', name: 'one', port: device }));
  const other = connectionIn(rtuFile([slaveFile()], { name: 'other', port: lasting }));
  expect(againstConnections([one, other], [])?.because).toMatch(
    /^other: .*-by-id is read already, by one; .*its own port/,
  );
  expect(againstConnections([one], [lasting])?.because).toMatch(/is read already, as a board's port/);
  expect(claimOn([one], lasting)).toBe('one');
  expect(claimOn([one], `${device}1`)).toBeUndefined();
  const com = (port: string) => connectionIn(linesFile({ pattern: 'T={1}', name: port, board: port, port }));
  expect(againstConnections([com('COM3'), com('\\\\.\\com3')], [])?.because).toContain('by COM3');
});

test('where people sign on nobody else sets up an instrument, and a demonstration keeps none', async () => {
  const closed = await bench({ actor: 'nobody' });
  expect((await closed.ask('POST', '/connections/trial', { connection })).status).toBe(403);
  expect((await closed.ask('GET', '/connections')).status).toBe(200);
  const shown = await bench({ notKept: 'this is a demonstration' });
  expect((await shown.ask('POST', '/connections/trial', { connection })).status).toBe(201);
  expect(await shown.ask('POST', '/connections', { connection })).toEqual({
    status: 409,
    body: { because: 'this is a demonstration' },
  });
});

test('a kept file that was spoilt is named, and no start goes on without its instrument', async () => {
  const { folder, ask } = await bench();
  await ask('POST', '/connections', { connection });
  const [name] = readdirSync(connectionsFolderOf(folder));
  writeFileSync(join(connectionsFolderOf(folder), name!), '{"format":');
  expect(() => keptConnections(folder)).toThrow(/cannot be read.*Put it right/);
});

test('what a restored record brought along is not read until it is kept, or is left out', async () => {
  const { folder, links, ask } = await bench();
  const waiting = waitingFolderOf(folder);
  mkdirSync(waiting, { recursive: true });
  writeFileSync(join(waiting, 'Meter%20on%20the%20bench.json'), JSON.stringify(connection));
  writeFileSync(join(waiting, 'Spoilt.json'), '{"format":');
  expect(keptConnections(folder)).toEqual([]);
  expect(((await ask('GET', '/connections')).body as ConnectionsView).waiting).toEqual([
    { name: connection.name, text: JSON.stringify(connection), was: 'lines of text, COM3' },
    { name: 'Spoilt', text: '{"format":' },
  ]);
  expect(links.size).toBe(0);
  expect((await ask('DELETE', '/connections/waiting/Spoilt')).status).toBe(200);
  expect((await ask('POST', '/connections', { connection })).status).toBe(201);
  expect(keptConnections(folder)).toEqual([connection]);
  expect(readdirSync(waiting)).toEqual([]);
});
