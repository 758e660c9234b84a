/**
 * A station put together: record, pipeline, links, desk, screen and door on one address. Ports, disk, clock
 * and socket are opened here and in the commands, nowhere else.
 */
import { randomUUID } from 'node:crypto';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { HostFrame } from '../../firmware-protocol/codec/frame.ts';
import { NotRecording } from '../desk/refusal.ts';
import { deskRouter } from '../desk/router.ts';
import { createCaptures } from '../diagnosis/captures.ts';
import { linksRouter } from '../diagnosis/router.ts';
import { createDoor, isSameOrigin } from '../door/door.ts';
import { createErrands } from '../errands/errands.ts';
import { logsRouter } from '../errands/logs-router.ts';
import { isJointChain } from '../ledger/item.ts';
import type { Clock } from '../measure/clock.ts';
import { adminRouter } from '../people/admin-router.ts';
import { peopleFileOf } from '../people/file.ts';
import { signOnRouter } from '../people/router.ts';
import { createSignOn } from '../people/sign-on.ts';
import { createPipeline, type Pipeline } from '../pipeline.ts';
import { RecordFailure } from '../record/failure.ts';
import { signerBeside } from '../record/key-file.ts';
import { openRecord, type RecordStore } from '../record/store.ts';
import { createLive } from '../screen/live.ts';
import { pastRouter } from '../screen/past-router.ts';
import { viewRouter } from '../screen/views.ts';
import { type BoardSignal, createSignals, type Signals } from '../signal/signals.ts';
import { boardsOf } from '../trip/boards.ts';
import { signedBy } from '../weld/signed.ts';
import type { WireEvent } from '../wire/event.ts';
import type { Link } from '../wire/serial-link.ts';
import { createConnecting } from './connecting.ts';
import { keepJob } from './keep-job.ts';
import { keepingOf } from './keeping.ts';
import { linksDesk, stationLinks } from './links.ts';
import type { StationOptions } from './options.ts';
import { keepPastCards, pastViews } from './past.ts';
import { readingsDesk } from './readings.ts';
import { keptStamps } from './stamps.ts';
import { stationViews } from './views.ts';

export interface Station {
  readonly address: string;
  readonly pipeline: Pipeline;
  readonly links: ReadonlyMap<string, Link>;
  /** Newest word of each link. */
  readonly linkEvents: ReadonlyMap<string, WireEvent & { type: 'link' }>;
  /** What lamp, horn and permission of each board are told; empty where they are not driven. */
  signals(): readonly BoardSignal[];
  send(port: string, frame: HostFrame): boolean;
  close(): Promise<void>;
}

/** Rejects with RecordRefusal for the folder, and with words for an address that is taken. */
export async function startStation(options: StationOptions): Promise<Station> {
  const { clock, folder, program, tell } = options;
  const record = openRecord({
    folder,
    begin: options.begin,
    program: program.rules,
    now: () => clock.wall(),
    signer: signerBeside(folder),
    ...(program.script === undefined ? {} : { rules: program.script }),
    ...(options.disk === undefined ? {} : { disk: options.disk }),
  });
  // What has been opened so far, for the case that the rest cannot be: nothing may keep a program alive that could not start.
  const opened: (() => unknown)[] = [() => record.close()];
  try {
    const http = createServer();
    opened.push(() => http.close());
    // The address first: a station that cannot be reached leaves no trace in the record.
    const address = await listen(http, options.httpPort, options.host);
    const errands = createErrands(folder, options.errandProgram);
    opened.push(() => errands.close());
    const signOn = createSignOn({
      file: peopleFileOf(folder),
      now: () => clock.wall(),
      monotonic: () => clock.monotonic(),
    });
    opened.push(() => signOn.book.close());
    const pipeline = createPipeline({
      store: record,
      clock,
      rules: program.rules,
      station: `station ${options.host}`,
      foldBeside: (joint, inputs) => errands.run({ kind: 'fold anew', joint, inputs }),
    });
    opened.push(() => pipeline.close());
    const links = new Map<string, Link>();
    const linkEvents = new Map<string, WireEvent & { type: 'link' }>();
    const signals = options.signals === true ? signalsOf(pipeline, links, clock) : undefined;
    opened.push(() => signals?.close());
    const hearLink = (path: string, event: WireEvent & { type: 'link' }): void => {
      linkEvents.set(path, event);
      if (event.state === 'refused' || event.state === 'lost')
        tell(`${path}: ${event.cause}${event.advice === undefined ? '' : `\n${event.advice}`}`);
    };
    const connecting = createConnecting({
      options,
      pipeline,
      links,
      linkEvents,
      onLink: hearLink,
      actor: signOn.actor,
    });
    opened.push(() => connecting.end());
    const keeping = keepingOf(options, errands, (joints) => pastCards.drawAnew(joints));
    opened.push(() => keeping?.close());
    const views = stationViews({
      options,
      record,
      pipeline,
      links,
      linkEvents,
      connections: connecting.connections,
      signals: () => signals?.boards(),
      errand: errands.run,
      ...(keeping === undefined ? {} : { keeping: keeping.view }),
    });

    const isTaken = (id: string): boolean => !isJointChain(id) || record.head(id).seq > 0;
    const isKnown = (id: string): boolean => isJointChain(id) && record.head(id).seq > 0;
    const desk = deskRouter({
      now: pipeline.now,
      joint: (id) => pipeline.run(id),
      isTaken,
      openJoints: () => record.chains().filter((each) => each.open).length,
      actor: signOn.actor,
      counterSigner: signOn.counterSigner,
      qualificationsOf: signOn.qualificationsOf,
      open: (joint, who, established) => pipeline.open(joint, signedBy(who, established)),
      act: (id, named) => pipeline.act(id, named),
      procedure: (asked, signed) => pipeline.procedure(asked, signed),
      putDocument: documentsOf(record),
      keepStamp: keptStamps(record),
      ...readingsDesk({ record, run: errands.run, now: () => clock.wall(), newId: randomUUID }),
    });
    const logs = logsRouter({
      view: (errand) => errands.run({ kind: 'logs', ...errand }),
      report: (errand, zone) => errands.run({ kind: 'report of logs', zone, ...errand }),
      newId: randomUUID,
      isTaken,
      actor: signOn.actor,
      async keep(errand, keeper) {
        const job = await errands.run({ kind: 'keep logs', keeper, ...errand });
        return keepJob(record, job, pipeline, keeper);
      },
    });
    let closing = false;
    const { claimedBy } = connecting;
    const keeper = stationLinks({ options, pipeline, signals, links, hearLink, claimedBy });
    opened.push(() => keeper.close());
    const captures = createCaptures(join(folder, 'captures'), clock, tell);
    opened.push(() => captures.close());
    const diagnosis = linksRouter(
      linksDesk({
        ...{ options, pipeline, keeper, links, linkEvents, captures, claimedBy },
        instrument: connecting.connections.read,
      }),
    );
    const app = createDoor({
      webFolder: options.webFolder,
      routers: [
        diagnosis,
        desk,
        signOnRouter(signOn),
        adminRouter(signOn),
        logs,
        connecting.router,
        pastRouter(pastViews(errands.run, record, isKnown)),
        viewRouter(views),
      ],
      onFailure: (cause) => {
        // What closing itself breaks off is no failure.
        if (closing) return;
        tell(`A request failed: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}`);
      },
    });
    http.on('request', app);
    const live = createLive(http, {
      now: pipeline.now,
      clock,
      station: views.station,
      after: (joint, position, limit) => record.after(position, { chain: joint, limit }),
      assessment: (joint) => pipeline.run(joint)?.assessment,
      outlook: pipeline.outlook,
      isAllowed: isSameOrigin,
    });
    opened.push(() => live.close());
    pipeline.onStep(live.step);
    const pastCards = keepPastCards(record, errands.run);
    opened.push(() => pastCards.end());
    if (signals !== undefined) pipeline.onStep(signals.step);
    pipeline.onRecordingChange(() => {
      const because = pipeline.notRecordingBecause();
      tell(because === undefined ? 'Recording again.' : `NOT RECORDING: ${because}`);
      live.stationChanged();
      signals?.recordingChanged();
    });

    connecting.begin();

    return {
      address,
      pipeline,
      links,
      linkEvents,
      signals: () => signals?.boards() ?? [],
      send: (port, frame) => links.get(port)?.send(frame) ?? false,
      async close() {
        closing = true;
        pastCards.end();
        keeping?.close();
        signals?.close();
        captures.close();
        await Promise.all([keeper.close(), connecting.end()]);
        pipeline.close();
        await live.close();
        http.closeAllConnections();
        await errands.close();
        signOn.book.close();
        record.close();
      },
    };
  } catch (cause) {
    for (const undo of opened.toReversed()) await undo();
    throw cause;
  }
}

/** Lamp, horn and permission, driven by what is committed. */
const signalsOf = (pipeline: Pipeline, links: ReadonlyMap<string, Link>, clock: Clock): Signals =>
  createSignals({
    clock,
    now: pipeline.now,
    isRecording: () => pipeline.notRecordingBecause() === undefined,
    boardsOf: (id) => {
      const run = pipeline.run(id);
      return run === undefined ? new Set() : boardsOf(run.joint);
    },
    write: (port, frame) => links.get(port)?.send(frame) ?? false,
  });

/** A disk that fails is told in the desk's own words. */
export const documentsOf =
  (record: Pick<RecordStore, 'putDocument'>) =>
  (bytes: Uint8Array, mediaType: string): string => {
    try {
      return record.putDocument(bytes, mediaType);
    } catch (cause) {
      throw cause instanceof RecordFailure ? new NotRecording(cause.message) : cause;
    }
  };

/** Express hands a listening error to the callback and goes on deaf; a bare server rejects as it should. */
function listen(http: ReturnType<typeof createServer>, port: number, host: string): Promise<string> {
  return new Promise((resolve, reject) => {
    http.once('error', (cause: NodeJS.ErrnoException) => {
      const advice =
        cause.code === 'EADDRINUSE'
          ? `port ${port} is in use: another station may be running. Close it, or start with --http and another number (0 takes a free one)`
          : cause.message;
      reject(new Error(`cannot listen on ${host}:${port}: ${advice}`));
    });
    http.listen(port, host, () =>
      resolve(`http://${host.includes(':') ? `[${host}]` : host}:${(http.address() as AddressInfo).port}/`),
    );
  });
}
