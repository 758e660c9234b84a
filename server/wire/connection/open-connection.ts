/** Opens what a connection file describes, and keeps it open. Each of its instruments becomes what a board is to the station. */
import type { Clock } from '../../measure/clock.ts';
import { type Connection, connectedBy, placeOf } from '../../weld/connection/connection.ts';
import type { SerialSettings } from '../../weld/connection/serial.ts';
import type { WireEvent } from '../event.ts';
import { createLately, type Lately, type LatelyCounts } from '../lately.ts';
import type { Exchange } from '../modbus/question.ts';
import type { OpenPort } from '../port.ts';
import { portAdvice } from '../port-advice.ts';
import { type Files, openFolder } from './folder-session.ts';
import { keepOpen, type Session } from './keep-open.ts';
import { openLines } from './lines-session.ts';
import { openTcp } from './modbus-tcp.ts';
import { type Overheard, overhear } from './overheard.ts';
import { openRtu } from './rtu-session.ts';
import { createSpeaker, type Speaker } from './speaker.ts';

/** What a connection touches of the world; tests hand in their own. */
export interface Outside {
  /** A serial port of that speed and framing. */
  serial(settings: SerialSettings & { readonly dataBits?: 7 | 8 }): OpenPort;
  /** A byte stream to a network address. */
  network: OpenPort;
  readonly files: Files;
  modbusTcp(
    host: string,
    port: number,
    answerWithinMilliseconds: number,
    lose: (cause: string) => void,
  ): Promise<Exchange>;
}

export interface ConnectionOptions {
  readonly connection: Connection;
  readonly outside: Outside;
  readonly clock: Clock;
  /** Operating system for advice: a value of process.platform. */
  readonly platform: string;
  readonly onEvent: (event: WireEvent) => void;
}

/** How an instrument was read so far. */
export interface ReadCounts {
  readonly good: number;
  readonly errors: readonly { readonly what: string; readonly times: number }[];
  /** What went wrong last. */
  readonly last?: string;
}

export interface ConnectionLink {
  readonly connection: Connection;
  readonly instruments: readonly { readonly board: string; readonly port: string }[];
  counts(board: string): ReadCounts;
  lately(board: string): LatelyCounts;
  readonly overheard: Overheard;
  close(): Promise<void>;
}

/** What each kind does with its port once the line is to be opened. */
export interface SessionOptions<C extends Connection> extends Omit<ConnectionOptions, 'connection'> {
  readonly connection: C;
  readonly speakers: readonly Speaker[];
  readonly tally: Tally;
  readonly lose: (cause?: string) => void;
  /** What to look at where nothing was read yet. */
  readonly advice: string;
}

export const openConnection = (options: ConnectionOptions): ConnectionLink => {
  const { connection, clock, platform, onEvent } = options;
  const speakers = connectedBy(connection).map((instrument) =>
    createSpeaker({ connection, instrument, clock, onEvent }),
  );
  const tally = createTally(clock);
  const overheard = overhear(clock, connection.kind);
  const outside = heardBy(overheard, options.outside);
  const each = (tell: (speaker: Speaker) => void): void => speakers.forEach(tell);
  const kept = keepOpen({
    clock,
    open: (lose) => openSession({ ...options, outside, speakers, tally, lose, advice: lookAt[connection.kind] }),
    onOpening: () => each((speaker) => speaker.say('opening', `opening ${placeOf(connection)}`)),
    onLost: (cause, spoke) =>
      each((speaker) => (spoke ? speaker.say('lost', cause) : speaker.say('refused', cause, lookAt[connection.kind]))),
    onRefused: (error) => {
      const { cause, advice } = refusalOf(connection, error, platform);
      each((speaker) => speaker.say('refused', cause, advice));
    },
  });
  return {
    connection,
    instruments: speakers.map(({ instrument: { board, port } }) => ({ board, port })),
    counts: tally.of,
    lately: tally.lately,
    overheard,
    close: kept.close,
  };
};

const heardBy = (overheard: Overheard, { serial, network, modbusTcp, files }: Outside): Outside => ({
  serial: (settings) => overheard.port(serial(settings), String(settings.baud)),
  network: overheard.port(network, ''),
  modbusTcp: async (...where) => overheard.exchange(await modbusTcp(...where)),
  files,
});

function openSession(options: SessionOptions<Connection>): Promise<Session> {
  const { connection } = options;
  switch (connection.kind) {
    case 'modbus rtu':
      return openRtu({ ...options, connection });
    case 'modbus tcp':
      return openTcp({ ...options, connection });
    case 'text lines':
      return openLines({ ...options, connection });
    case 'csv folder':
      return openFolder({ ...options, connection });
  }
}

/** What is opened and gives nothing: told once, with what to look at. */
const lookAt: Readonly<Record<Connection['kind'], string>> = {
  'modbus rtu': 'See that the adapter is plugged in and that the modules have power.',
  'modbus tcp': 'See that the device has power and is on this network.',
  'text lines':
    'See that the instrument has power and sends by itself, or say what is sent to ask, with its line end; and that speed, parity, stop bits and the way in which its lines are written are its own.',
  'csv folder': 'See that the logger writes, and that the names and columns are its own.',
};

const refusalOf = (connection: Connection, error: Error, platform: string): { cause: string; advice: string } => {
  if ('port' in connection) return portAdvice(error, platform);
  return {
    cause: error.message,
    advice:
      'host' in connection
        ? 'See that the device has power and is on this network, and that address and port are its own.'
        : 'See that the folder is there and that this user may read it.',
  };
};

/** Counts by instrument over the life of the connection, all openings together. */
export interface Tally {
  good(board: string): void;
  bad(board: string, what: string, detail: string): void;
  of(board: string): ReadCounts;
  lately(board: string): LatelyCounts;
}

interface Counted {
  good: number;
  readonly errors: Map<string, number>;
  last?: string;
}

const soFar = ({ good, errors }: Counted): LatelyCounts => ({
  ...{ linesGood: good, linesBad: [...errors.values()].reduce((sum, times) => sum + times, 0) },
  ...{ linesMissing: 0, losses: 0, echoes: 0 },
});

const createTally = (clock: Clock): Tally => {
  const all = new Map<string, Counted & { readonly lately: Lately }>();
  const at = (board: string) => {
    const found = all.get(board);
    if (found !== undefined) return found;
    const counted: Counted = { good: 0, errors: new Map() };
    const made = Object.assign(counted, { lately: createLately(clock, () => soFar(counted)) });
    all.set(board, made);
    return made;
  };
  return {
    lately: (board) => at(board).lately.of(),
    good(board) {
      const count = at(board);
      count.lately.note();
      count.good += 1;
    },
    bad(board, what, detail) {
      const count = at(board);
      count.lately.note();
      count.errors.set(what, (count.errors.get(what) ?? 0) + 1);
      count.last = detail;
    },
    of(board) {
      const { good, errors, last } = at(board);
      return {
        good,
        errors: [...errors].map(([what, times]) => ({ what, times })),
        ...(last === undefined ? {} : { last }),
      };
    },
  };
};
