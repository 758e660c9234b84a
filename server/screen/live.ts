/**
 * OUTLET: committed steps to the browsers. Each follows from the last position it holds: what was committed
 * since is read from the record and sent first, so that a reconnect leaves no hole. A browser that cannot
 * keep up is cut off and catches up in the same way, rather than filling the station's memory.
 */
import type { Server as HttpServer } from 'node:http';
import { Server, type Socket } from 'socket.io';
import { z } from 'zod';
import type { Assessment } from '../judgement/assessment.ts';
import type { Outlook } from '../judgement/inside/section-status.ts';
import type { CommittedItem } from '../ledger/item.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { type Instant, milliseconds } from '../measure/quantity.ts';
import type { LiveMessage, LiveReading, StationView } from './contract.ts';

export interface LiveSource {
  readonly clock: Clock;
  /** The time that readings are compared with. */
  now(): Instant;
  station(): StationView;
  /** Committed items of the joint after the position, oldest first. */
  after(joint: string, position: number, limit: number): readonly CommittedItem[];
  assessment(joint: string): Assessment | undefined;
  outlook(joint: string): Outlook | undefined;
  isAllowed(origin: string | undefined, host: string | undefined): boolean;
}

/** What the trip tells of one joint. */
export interface LiveStep {
  readonly joint: string;
  readonly items: readonly CommittedItem[];
  readonly position: number;
  readonly assessment: Assessment;
}

export interface Live {
  /** A committed step; without items it only tells that time has passed. */
  step(step: LiveStep): void;
  /** The recording state changed: told at once, not at the next second. */
  stationChanged(): void;
  close(): Promise<void>;
}

const followSchema = z.strictObject({
  joint: z.string().max(100),
  after: z.number().int().min(0),
});
const unfollowSchema = z.strictObject({ joint: z.string().max(100) });
const stationEvery = milliseconds(1000);
const chunk = 2000;
export function createLive(http: HttpServer, source: LiveSource): Live {
  const io = new Server(http, {
    serveClient: false,
    allowRequest: (request, decide) => decide(null, source.isAllowed(request.headers.origin, request.headers.host)),
    maxHttpBufferSize: 100_000,
  });
  let cancel = (): void => {};

  const tellStation = (): void => {
    if (io.sockets.sockets.size > 0) io.emit('station', source.station());
  };
  const eachSecond = (): void => {
    cancel = source.clock.after(stationEvery, eachSecond);
    for (const socket of io.sockets.sockets.values()) if (isChoked(socket)) cutOff(socket);
    tellStation();
  };
  eachSecond();

  io.on('connection', (socket) => {
    socket.emit('station', source.station());
    socket.on('follow', (body: unknown) => {
      const asked = followSchema.safeParse(body);
      if (!asked.success || source.assessment(asked.data.joint) === undefined) return;
      catchUp(socket, source, asked.data.joint, asked.data.after);
      void socket.join(asked.data.joint);
    });
    socket.on('unfollow', (body: unknown) => {
      const asked = unfollowSchema.safeParse(body);
      if (asked.success) void socket.leave(asked.data.joint);
    });
  });

  /** What nobody hears is not made. */
  const isFollowed = (joint: string): boolean => io.sockets.adapter.rooms.has(joint);
  const told = new Map<string, Instant>();
  /** Each once. */
  const newOutlook = (joint: string): Outlook | undefined => {
    const outlook = source.outlook(joint);
    if (outlook === undefined || told.get(joint) === outlook.at) return undefined;
    told.set(joint, outlook.at);
    return outlook;
  };

  return {
    step({ joint, items, position, assessment }) {
      if (!isFollowed(joint)) return;
      const message = messageOf(source, joint, items, position, assessment);
      const outlook = items.length === 0 ? newOutlook(joint) : undefined;
      io.to(joint).emit('live', outlook === undefined ? message : { ...message, outlook });
    },
    stationChanged: tellStation,
    async close() {
      cancel();
      await io.close();
    },
  };
}

function catchUp(socket: Socket, source: LiveSource, joint: string, after: number): void {
  for (let position = after; ; ) {
    const items = source.after(joint, position, chunk);
    position = items.at(-1)?.position ?? position;
    const last = items.length < chunk;
    socket.emit('live', messageOf(source, joint, items, position, last ? source.assessment(joint) : undefined));
    if (last) return;
  }
}

function messageOf(
  source: LiveSource,
  joint: string,
  items: readonly CommittedItem[],
  position: number,
  assessment: Assessment | undefined,
): LiveMessage {
  const readings = items.flatMap((item): LiveReading[] =>
    item.type !== 'scan'
      ? []
      : item.scan.values.map((value) => ({
          probe: value.probe,
          at: item.scan.measuredAt,
          quality: value.quality,
          ...(value.temperature === undefined ? {} : { temperature: value.temperature }),
        })),
  );
  return {
    joint,
    position,
    now: source.now(),
    readings,
    ...(assessment === undefined ? {} : { assessment }),
  };
}

/** As a line that breaks: a browser comes back after that by itself, which it would not after a farewell. */
const cutOff = (socket: Socket): void => {
  (socket.conn as unknown as { close(discardWhatWaits: boolean): void }).close(true);
};

/** What waits for this browser, in its packets and in the socket below them. */
function isChoked(socket: Socket): boolean {
  const { writeBuffer, transport } = socket.conn as unknown as Connection;
  const waiting = writeBuffer.reduce((sum, { data }) => sum + (typeof data === 'string' ? data.length : 0), 0);
  return waiting + (transport.socket?.bufferedAmount ?? 0) > limits.screenBacklogMaximum;
}

/** What the library holds beside its published types. */
interface Connection {
  readonly writeBuffer: readonly { readonly data?: unknown }[];
  readonly transport: { readonly socket?: { readonly bufferedAmount?: number } };
}
