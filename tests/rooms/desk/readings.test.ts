/** Readings moved over HTTP while the station runs: the package is looked at first, the role is asked for, and each refusal says what to do. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import express from 'express';
import { expect, onTestFinished, test } from 'vitest';
import { answeredOnce } from '../../../server/desk/answer.ts';
import { readingsRoutes } from '../../../server/desk/readings.ts';
import { createDoor } from '../../../server/door/door.ts';
import { type Errand, type ReadingErrand, run as runErrand } from '../../../server/errands/errand.ts';
import { lookAtPackage } from '../../../server/errands/packaged.ts';
import { viewRouter } from '../../../server/screen/views.ts';
import { readingsDesk } from '../../../server/station/readings.ts';
import { stationViews } from '../../../server/station/views.ts';
import type { PackageSeen } from '../../../server/weld/package-seen.ts';
import { at } from '../../support/record.ts';
import { archived, opened } from '../../support/removed-record.ts';

const shop = async () => {
  const made = archived();
  made.bed.reopen();
  const { store } = made.bed;
  const router = express.Router();
  const errand = (asked: Errand) =>
    runErrand(asked as ReadingErrand, store, { name: 'test', version: '1', rules: 'test' }) as never;
  let ids = 0;
  const newId = (): string => {
    ids += 1;
    return `seen ${ids}`;
  };
  const desk = readingsDesk({ record: store, run: errand, now: () => at(60_000), newId });
  const isTaken = (id: string): boolean => store.head(id).seq > 0;
  readingsRoutes(router, { ...desk, isTaken }, () => 'as named', answeredOnce(), { status: 404, body: {} });
  const pipeline = { run: () => undefined, outlook: () => undefined, now: () => at(60_000) } as never;
  const views = stationViews({
    ...{ options: {} as never, record: store, pipeline, links: new Map(), linkEvents: new Map(), errand },
    connections: { read: () => undefined },
  });
  const webFolder = mkdtempSync(join(tmpdir(), 'web-'));
  const http = createServer(createDoor({ webFolder, routers: [router, viewRouter(views)], onFailure: console.error }));
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    http.close();
    rmSync(webFolder, { recursive: true });
  });
  const base = `http://127.0.0.1:${(http.address() as AddressInfo).port}/api/joints/joint-1`;
  const answer = async (path: string, init?: RequestInit) => {
    const response = await fetch(base + path, init);
    return { status: response.status, text: await response.text() };
  };
  const hand = (bytes: Uint8Array) =>
    answer('/readings/package', {
      method: 'POST',
      body: bytes as BodyInit,
      headers: { 'Content-Type': 'application/zip' },
    });
  const move = (body: object) =>
    answer('/readings', {
      method: 'POST',
      body: JSON.stringify(body),
      headers: { 'Content-Type': 'application/json' },
    });
  return { ...made, store, bytes: new Uint8Array(readFileSync(made.path)), hand, move, answer };
};

const who = { name: 'Imke Sorel', role: 'coordinator' };

test('looked at, removed for a reason, told wherever the readings are asked for, and put back', async () => {
  const { store, bytes, hand, move, answer } = await shop();
  const seen = JSON.parse((await hand(bytes)).text) as PackageSeen;
  expect(seen).toMatchObject({ way: 'remove', scans: 8, sha256: opened(bytes).sha256 });
  expect(seen.bytes).toBeGreaterThan(0);
  expect(await move({ who, package: seen.id })).toMatchObject({ status: 422, text: expect.stringContaining('reason') });
  for (const other of [{ name: 'A' }, { name: 'A', role: 'inspector' }])
    expect(await move({ who: other, package: seen.id, reason: 'x' })).toMatchObject({
      status: 422,
      text: expect.stringContaining('for removing readings from the record: coordinator'),
    });
  expect(store.removed('joint-1')).toBeUndefined();
  expect(await move({ who, package: seen.id, reason: 'ten years are over' })).toMatchObject({
    status: 201,
    text: expect.stringContaining('8 scans removed'),
  });
  expect(store.removed('joint-1')).toMatchObject({ who: 'Imke Sorel', role: 'coordinator', proof: 'typed name' });
  expect((await move({ who, package: seen.id, reason: 'again' })).text).toContain('Choose the file again');

  for (const path of ['/history', '/readings.csv', '/passes.csv'])
    expect(await answer(path)).toMatchObject({ status: 410, text: expect.stringContaining('put them back') });
  const state = JSON.parse((await answer('')).text);
  expect(state).toMatchObject({ assessment: { verdict: 'cannot-be-judged', findings: [] } });
  expect(state.readingsRemoved).toMatchObject({ reason: 'ten years are over', package: seen.sha256 });
  const events = JSON.parse((await answer('/timeline')).text) as { kind: string; who: string }[];
  expect(events.at(-1)).toMatchObject({ kind: 'readings removed', who: 'Imke Sorel' });

  const back = JSON.parse((await hand(bytes)).text) as PackageSeen;
  expect(back.way).toBe('put back');
  expect((await move({ who, package: back.id })).status).toBe(201);
  expect(store.removed('joint-1')).toBeUndefined();
  expect((await answer('/history')).status).toBe(200);
  expect(JSON.parse((await answer('')).text).readingsRemoved).toBeUndefined();
});

test('a file that does not fit is refused with what to do, and an older look is forgotten', async () => {
  const { bytes, hand, move, store } = await shop();
  expect((await hand(new TextEncoder().encode('no zip'))).text).toContain('Take another copy of it, or make a new one');
  expect((await hand(new Uint8Array())).status).toBe(422);
  const seen = JSON.parse((await hand(bytes)).text) as PackageSeen;
  await hand(bytes);
  expect((await move({ who, package: seen.id, reason: 'x' })).text).toContain('Choose the file again');
  expect('refused' in lookAtPackage(store, { kind: 'look at package', joint: 'joint-2', bytes })).toBe(true);
});
