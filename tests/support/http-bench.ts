/** The desk and the views over HTTP on loopback, in front of a pipeline on a clock that the test moves. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Request, Router } from 'express';
import { onTestFinished } from 'vitest';
import type { ActorOf, Signer } from '../../server/desk/actor.ts';
import { NotRecording } from '../../server/desk/refusal.ts';
import { type DeskStation, deskRouter } from '../../server/desk/router.ts';
import { createDoor, isSameOrigin } from '../../server/door/door.ts';
import { type Errand, type ReadingErrand, run as runErrand } from '../../server/errands/errand.ts';
import { isJointChain } from '../../server/ledger/item.ts';
import { RecordFailure } from '../../server/record/failure.ts';
import { createLive, type Live } from '../../server/screen/live.ts';
import { pastRouter } from '../../server/screen/past-router.ts';
import { viewRouter } from '../../server/screen/views.ts';
import { pastViews } from '../../server/station/past.ts';
import { readingsDesk } from '../../server/station/readings.ts';
import { keptStamps } from '../../server/station/stamps.ts';
import { documentsOf } from '../../server/station/station.ts';
import { stationViews } from '../../server/station/views.ts';
import { signedBy } from '../../server/weld/signed.ts';
import { group, type PipelineBench, pipelineBench } from './pipeline-bench.ts';

export interface HttpBench {
  readonly bench: PipelineBench;
  readonly address: string;
  readonly failures: unknown[];
  readonly live: Live;
  /** Waits for the answer, moving the clock on when something waits to be committed. */
  ask(path: string, init?: RequestInit): Promise<Response>;
  post(path: string, body: unknown, headers?: Record<string, string>): Promise<Response>;
}

export async function httpBench(
  more: readonly Router[] = [],
  bench: PipelineBench = pipelineBench(),
  signOn?: Pick<DeskStation, 'qualificationsOf'> & {
    readonly actor: ActorOf;
    counterSigner(request: Request): Signer | undefined;
  },
): Promise<HttpBench> {
  const { clock } = bench;
  const failures: unknown[] = [];
  const webFolder = mkdtempSync(join(tmpdir(), 'web-'));
  writeFileSync(join(webFolder, 'index.html'), '<!doctype html><title>page</title>');
  const desk = deskRouter({
    now: () => bench.pipeline.now(),
    joint: (id) => bench.pipeline.run(id),
    isTaken: (id) => !isJointChain(id) || bench.record.chains().some((each) => each.chain === id),
    ...(signOn === undefined
      ? {}
      : {
          actor: signOn.actor,
          counterSigner: signOn.counterSigner,
          ...(signOn.qualificationsOf && { qualificationsOf: signOn.qualificationsOf }),
        }),
    openJoints: () => bench.record.chains().filter((each) => each.open).length,
    open: (joint, who, established) => bench.pipeline.open(joint, signedBy(who, established)),
    act: (id, named) => bench.pipeline.act(id, named),
    procedure: (asked, signed) => bench.pipeline.procedure(asked, signed),
    putDocument: documentsOf({
      putDocument(bytes, mediaType) {
        if (bench.refuse !== undefined) throw new RecordFailure('no', bench.refuse, undefined);
        return bench.record.putDocument(bytes, mediaType);
      },
    }),
    keepStamp: (id, files) => {
      if (bench.refuse !== undefined) throw new NotRecording(bench.refuse);
      return keptStamps(bench.record)(id, files);
    },
    ...readingsDesk({
      record: bench.record,
      run: (asked) => errand(asked),
      now: () => bench.pipeline.now(),
      newId: () => 'seen',
    }),
  });
  const errand = (asked: Errand) =>
    runErrand(asked as ReadingErrand, bench.record, { name: 'test', version: '1', rules: 'test' }) as never;
  const views = stationViews({
    options: {} as never,
    record: bench.record,
    pipeline: bench.pipeline,
    links: new Map(),
    linkEvents: new Map(),
    connections: { read: () => undefined },
    errand,
  });
  const app = createDoor({
    webFolder,
    routers: [
      desk,
      pastRouter(pastViews(errand, bench.record, (id) => bench.record.head(id).seq > 0)),
      viewRouter(views),
      ...more,
    ],
    onFailure: (cause) => failures.push(cause),
  });
  const http = createServer(app);
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
  const live = createLive(http, {
    now: () => bench.pipeline.now(),
    clock,
    station: views.station,
    after: (joint, position, limit) => bench.record.after(position, { chain: joint, limit }),
    assessment: (joint) => bench.pipeline.run(joint)?.assessment,
    outlook: bench.pipeline.outlook,
    isAllowed: isSameOrigin,
  });
  bench.pipeline.onStep(live.step);
  bench.pipeline.onRecordingChange(live.stationChanged);
  const atRest = clock.sleepers();
  onTestFinished(async () => {
    await live.close();
    http.closeAllConnections();
    http.close();
    rmSync(webFolder, { recursive: true, force: true });
  });

  const address = `http://127.0.0.1:${(http.address() as AddressInfo).port}`;
  const ask = async (path: string, init?: RequestInit): Promise<Response> => {
    let settled = false;
    const answer = fetch(address + path, init).finally(() => {
      settled = true;
    });
    while (!settled) {
      await new Promise((resolve) => setImmediate(resolve));
      if (clock.sleepers() > atRest) clock.move(group);
    }
    return answer;
  };
  return {
    bench,
    address,
    failures,
    live,
    ask,
    post: (path, body, headers = {}) =>
      ask(path, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json', ...headers },
        body: JSON.stringify(body),
      }),
  };
}

/** A joint as a person would send it: plain JSON. */
export const asJson = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;
