/**
 * The link to one port, for as long as the station runs: opens it, listens, notices the loss, opens it again.
 * Promise: no sample is handed on before the hello it belongs to; nothing is glued across openings; nothing
 * is retried or awaited but on the clock handed in; a change of state is reported once, not at each retry. What is no
 * board of this station is left alone until it is plugged in anew or somebody asks.
 */
import { encode } from '../../firmware-protocol/codec/encode.ts';
import type { BoardFrame, Hello, HostFrame, Reply } from '../../firmware-protocol/codec/frame.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import { createAnnouncer } from './announcer.ts';
import { createBaudSearch } from './baud-search.ts';
import { type BoardBook, createBoardBook, type Holder, type Talk } from './board-book.ts';
import { type LineFault, openConversation } from './conversation.ts';
import type { LinkCounts, WireEvent } from './event.ts';
import { createLately, type LatelyCounts } from './lately.ts';
import type { OpenPort, Port } from './port.ts';
import { type Advised, portAdvice, speedsTried, twinAdvice } from './port-advice.ts';
import { asError, boundedWriter, closeBounded, openBounded } from './port-opening.ts';
import { createRawLines, type RawLine } from './raw-lines.ts';
import { refillCommand } from './refill.ts';
import { createTaps, type Hear } from './traffic.ts';

export interface LinkOptions {
  readonly path: string;
  readonly openPort: OpenPort;
  readonly clock: Clock;
  readonly onEvent: (event: WireEvent) => void;
  /** What became of a command that went out through send. */
  readonly onReply?: (reply: Reply) => void;
  /** Operating system for advice: a value of process.platform. */
  readonly platform: string;
  /** Shared by all links of a station, so that a board may move from port to port; its own if not given. */
  readonly book?: BoardBook;
  readonly baudRate?: number;
  /** The station found this port by itself: it is listened to before anything is written. */
  readonly listenFirst?: boolean;
  /** Asked before each opening; words where the port must not be opened. */
  readonly mayOpen?: () => Promise<Advised | undefined>;
}

export interface Link {
  /**
   * Writes a command; numbers 1 to 65534 are free, the others are the link's own. False if no board is heard on the
   * port or too many commands wait: it was not sent, and the caller decides whether it still wants it.
   */
  send(frame: HostFrame): boolean;
  /** Over the life of the link, all openings together. */
  counts(): LinkCounts & { readonly lately?: LatelyCounts };
  close(): Promise<void>;
}

/** The link to a port that is read as a board's. */
export interface BoardLink extends Link {
  counts(): BoardCounts;
  baudRate(): number;
  /** Newest lines both ways, those after the given number. */
  lines(after: number): readonly RawLine[];
  /** Hears all bytes both ways, and each opening and loss, until the function that it gives is called. */
  tap(hear: Hear): () => void;
  /** Tries at once, also where the port was left alone. */
  retry(): void;
}

export interface BoardCounts extends LinkCounts {
  /** Lines that were not taken, by what was wrong with them. */
  readonly faults: Readonly<Partial<Record<LineFault, number>>>;
  /** How often the port was opened, and lost after a board had spoken. */
  readonly openings: number;
  readonly losses: number;
  /** Of the last hour. */
  readonly lately: LatelyCounts;
}

interface Ending extends Partial<Advised> {
  readonly kind: 'lost' | 'refused' | 'closed';
  readonly cause: string;
  readonly strange?: 'unreadable' | 'text';
  readonly leftAlone?: boolean;
}

interface Speaking {
  readonly write: (text: string) => boolean;
  readonly board: string;
  readonly talk: Talk;
}

export const openLink = (options: LinkOptions): BoardLink => {
  const { path, clock, onEvent, platform, book = createBoardBook(clock), mayOpen = async () => undefined } = options;
  const announcer = createAnnouncer(path, clock, onEvent);
  const search = createBaudSearch(options.baudRate ?? 115_200);
  const raw = createRawLines(limits.rawLinesKept);
  const taps = createTaps(clock);
  const counts = { linesGood: 0, linesBad: 0, bytesDropped: 0, openings: 0, losses: 0 };
  const faults: Partial<Record<LineFault, number>> = {};
  let lastTalk: Talk | undefined;
  let lastBoard: string | undefined;
  let speaking: Speaking | undefined;
  let closed = false;
  let stop = (): void => {};
  let wake = (): void => {};

  const soFar = (): LatelyCounts => ({
    linesGood: counts.linesGood,
    linesBad: counts.linesBad,
    linesMissing: lastTalk?.missing() ?? 0,
    losses: counts.losses,
    echoes: faults['our own words'] ?? 0,
  });
  const lately = createLately(clock, soFar);

  const send = (frame: HostFrame): boolean => speaking?.write(`${encode(frame)}\n`) ?? false;

  /** One opening of the port, from the first try to its end. Resolves with why it ended and if a board spoke. */
  const openOnce = async (): Promise<Ending & { readonly spoke: boolean }> => {
    const blocked = await mayOpen();
    if (closed) return { ...endedByStation, spoke: false };
    if (blocked !== undefined) return { kind: 'refused', spoke: false, leftAlone: true, ...blocked };
    announcer.say('opening', `opening ${path}`);
    let settle: (ending: Ending) => void = () => {};
    const ended = new Promise<Ending>((resolve) => {
      settle = resolve;
    });
    stop = () => settle(endedByStation);
    let take = (_bytes: Uint8Array): void => {};
    let port: Port;
    try {
      const onBytes = (bytes: Uint8Array): void => {
        taps.tell('in', bytes);
        take(bytes);
      };
      const onLost = (cause: string): void => settle({ kind: 'lost', cause });
      port = await openBounded(clock, options.openPort, path, { onBytes, onLost }, search.rate());
    } catch (error) {
      return { kind: 'refused', spoke: false, ...portAdvice(asError(error), platform) };
    }
    if (closed) {
      await closeBounded(clock, port);
      return { ...endedByStation, spoke: false };
    }
    counts.openings += 1;
    taps.tell('open', String(search.rate()));
    const passOn = boundedWriter(port, (cause) => settle({ kind: 'lost', cause }));
    const write = (text: string): boolean => {
      taps.tell('out', text);
      for (const line of text.split('\n')) if (line !== '') raw.add(clock.wall(), 'out', line);
      return passOn(text);
    };
    announcer.say('waiting for hello', 'the port is open');
    let spoke = false;
    const holder: Holder = {
      port: path,
      send: (frame) => void send(frame),
      tell: (board, hole) => onEvent({ type: 'hole', port: path, board, hole, arrivedAt: clock.wall() }),
      twin: (heldOn) => settle({ kind: 'refused', leftAlone: true, ...twinAdvice(lastBoard!, path, heldOn) }),
    };
    const conversation = openConversation(
      clock,
      {
        write: (text) => void write(text),
        onEnd: settle,
        onLine: (line, fault) => {
          raw.add(clock.wall(), 'in', line, fault);
          lately.note();
          if (fault === undefined) counts.linesGood += 1;
          else {
            counts.linesBad += 1;
            faults[fault] = (faults[fault] ?? 0) + 1;
          }
        },
        onDropped: (bytes) => {
          counts.bytesDropped += bytes;
        },
        onHello: (hello) => {
          if (closed) return false;
          if (!greet(hello, holder, write)) return false;
          spoke = true;
          return true;
        },
        onBoardFrame: (frame) => !closed && hear(frame),
        onHelloNeeded: (cause) => {
          speaking = undefined;
          book.leave(holder);
          announcer.say('waiting for hello', cause);
        },
      },
      { listenFirst: options.listenFirst === true, spokeBefore: lastTalk !== undefined },
    );
    take = conversation.take;
    const ending = await ended;
    speaking = undefined;
    conversation.close();
    book.leave(holder);
    taps.tell('lost', ending.cause);
    lately.note();
    if (spoke && ending.kind === 'lost') counts.losses += 1;
    const isFree = await closeBounded(clock, port);
    // A port that goes before any board has spoken was of no use: told once, as a port that does not open is.
    const kind = ending.kind === 'lost' && !spoke ? 'refused' : ending.kind;
    return { ...ending, kind, spoke, ...(isFree ? {} : { cause: `${ending.cause}; ${stillHeld}` }) };
  };

  /** False where another port has the board. */
  const greet = (hello: Hello, holder: Holder, write: Speaking['write']): boolean => {
    const before = lastBoard;
    const greeting = book.greet(hello, holder);
    if (greeting.kind === 'held') {
      lastBoard = hello.board;
      announcer.say('waiting for hello', `board ${hello.board} is still being read on ${greeting.port}`);
      return false;
    }
    lastTalk = greeting.talk;
    lastBoard = hello.board;
    speaking = { write, board: hello.board, talk: greeting.talk };
    announcer.open(
      hello.board,
      before === hello.board ? undefined : before,
      search.tried().length > 1 ? search.rate() : undefined,
    );
    onEvent({ type: 'hello', port: path, hello, arrivedAt: clock.wall() });
    return true;
  };

  /** False if the line was here before. */
  const hear = (frame: Exclude<BoardFrame, Hello>): boolean => {
    if (speaking === undefined) return true;
    const { talk, board } = speaking;
    if (frame.kind === 'reply') {
      if (frame.command === refillCommand) talk.reply(frame);
      else options.onReply?.(frame);
      return true;
    }
    // A line sent again that had come all the same is no bad line.
    if (!talk.isNew(frame)) return frame.resent;
    const arrivedAt = clock.wall();
    onEvent({ type: 'sample', port: path, board, sample: frame, arrivedAt });
    talk.took(frame);
    return true;
  };

  /** What is told of the ending, and whether the port is tried again by itself. */
  const verdictOn = (ending: Ending): Ending => {
    if (ending.strange === 'text') return { ...ending, leftAlone: true };
    if (ending.strange !== 'unreadable') return ending;
    const rate = search.rate();
    if (search.next()) return { ...ending, cause: `${ending.cause} (${rate} baud); ${search.rate()} is tried next` };
    return { ...ending, ...speedsTried(search.tried(), ending.advice ?? ''), leftAlone: true };
  };

  const run = async (): Promise<void> => {
    let wait: number = limits.reopenFirstMilliseconds;
    while (!closed) {
      const { spoke, ...how } = await openOnce();
      if (closed) break;
      const ending = verdictOn(how);
      if (ending.twin !== undefined)
        onEvent({ type: 'twin', port: path, board: lastBoard!, heldOn: ending.twin, arrivedAt: clock.wall() });
      if (ending.kind !== 'closed') announcer.say(ending.kind, ending.cause, ending.advice, ending.leftAlone);
      if (spoke || ending.strange === 'unreadable') wait = limits.reopenFirstMilliseconds;
      const asked = await pauseOr(ending.leftAlone === true ? undefined : wait);
      wait = asked ? limits.reopenFirstMilliseconds : Math.min(wait * 2, limits.reopenLongestMilliseconds);
      if (asked && ending.leftAlone === true) search.restart();
    }
  };

  /** Resolves with true if somebody asked. Without a time only that ends it. */
  const pauseOr = (time: number | undefined): Promise<boolean> =>
    new Promise((resolve) => {
      const cancel = time === undefined ? () => {} : clock.after(milliseconds(time), () => done(false));
      const done = (asked: boolean): void => {
        cancel();
        wake = () => {};
        resolve(asked);
      };
      wake = () => done(true);
      stop = () => done(false);
    });

  const running = run();
  return {
    send,
    counts: () => ({ ...counts, faults: { ...faults }, linesMissing: soFar().linesMissing, lately: lately.of() }),
    baudRate: search.rate,
    lines: raw.after,
    tap: taps.add,
    retry: () => wake(),
    close: async () => {
      closed = true;
      stop();
      await running;
    },
  };
};

const endedByStation = { kind: 'closed', cause: 'closed by the station' } as const;
const stillHeld = 'the system still holds the port, so that it may be busy for a while';
