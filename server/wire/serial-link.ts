/**
 * The link to one port, for as long as the station runs: opens it, listens, notices the loss, opens it again.
 * Promise: no sample is handed on before the hello it belongs to; nothing is glued across openings; nothing
 * is retried or awaited but on the clock handed in; a change of state is reported once, not at each retry.
 */
import { encode } from '../../firmware-protocol/codec/encode.ts';
import type { BoardFrame, Hello, HostFrame, Reply } from '../../firmware-protocol/codec/frame.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import { createAnnouncer } from './announcer.ts';
import { openConversation } from './conversation.ts';
import type { LinkCounts, WireEvent } from './event.ts';
import type { OpenPort, Port, PortHandlers } from './port.ts';
import { portAdvice } from './port-advice.ts';
import { createRefill, refillCommand } from './refill.ts';
import { createSequenceWatch } from './sequence-watch.ts';

export interface LinkOptions {
  readonly path: string;
  readonly openPort: OpenPort;
  readonly clock: Clock;
  readonly onEvent: (event: WireEvent) => void;
  /** What became of a command that went out through send. */
  readonly onReply?: (reply: Reply) => void;
  /** Operating system for advice: a value of process.platform. */
  readonly platform: string;
}

export interface Link {
  /**
   * Writes a command; numbers 1 to 65534 are free, the others are the link's own. False if no board is heard on the
   * port or too many commands wait: it was not sent, and the caller decides whether it still wants it.
   */
  send(frame: HostFrame): boolean;
  /** Over the life of the link, all openings together. */
  counts(): LinkCounts;
  close(): Promise<void>;
}

interface Ending {
  readonly kind: 'lost' | 'refused' | 'closed';
  readonly cause: string;
  readonly advice?: string;
}

export const openLink = (options: LinkOptions): Link => {
  const { path, clock, onEvent } = options;
  const announcer = createAnnouncer(path, clock, onEvent);
  const watch = createSequenceWatch();
  const send = (frame: HostFrame): boolean => speaking?.write(`${encode(frame)}\n`) ?? false;
  const refill = createRefill({
    clock,
    watch,
    // What cannot be written now is asked again once its time has run out.
    send: (frame) => void send(frame),
    tell: (hole) => onEvent({ type: 'hole', port: path, board: known!.board, hole, arrivedAt: clock.wall() }),
  });
  const counts = { linesGood: 0, linesBad: 0, bytesDropped: 0 };
  let known: Hello | undefined;
  let speaking: { readonly write: (text: string) => boolean } | undefined;
  let closed = false;
  let stop = (): void => {};

  /** One opening of the port, from the first try to its end. Resolves with why it ended and if a board spoke. */
  const openOnce = async (): Promise<Ending & { readonly spoke: boolean }> => {
    announcer.say('opening', `opening ${path}`);
    let settle: (ending: Ending) => void = () => {};
    const ended = new Promise<Ending>((resolve) => {
      settle = resolve;
    });
    stop = () => settle({ kind: 'closed', cause: 'closed by the station' });
    let take = (_bytes: Uint8Array): void => {};
    const handlers: PortHandlers = {
      onBytes: (bytes) => take(bytes),
      onLost: (cause) => settle({ kind: 'lost', cause }),
    };
    let port: Port;
    try {
      port = await options.openPort(path, handlers);
    } catch (error) {
      return { kind: 'refused', spoke: false, ...portAdvice(asError(error), options.platform) };
    }
    if (closed) {
      await port.close();
      return { kind: 'closed', spoke: false, cause: 'closed by the station' };
    }
    const write = boundedWriter(port, (cause) => settle({ kind: 'lost', cause }));
    let spoke = false;
    announcer.say('waiting for hello', 'the port is open');
    const conversation = openConversation(clock, {
      write: (text) => void write(text),
      onEnd: settle,
      onLine: (good) => {
        if (good) counts.linesGood += 1;
        else counts.linesBad += 1;
      },
      onDropped: (bytes) => {
        counts.bytesDropped += bytes;
      },
      onBoardFrame: (frame) => {
        if (closed) return false;
        if (frame.kind === 'hello') {
          spoke = true;
          speaking = { write };
        }
        return hear(frame);
      },
      onHelloNeeded: (cause) => {
        speaking = undefined;
        refill.pause();
        announcer.say('waiting for hello', cause);
      },
    });
    take = conversation.take;
    const ending = await ended;
    speaking = undefined;
    refill.pause();
    conversation.close();
    await port.close();
    // A port that goes before any board has spoken was of no use: told once, as a port that does not open is.
    if (ending.kind === 'lost' && !spoke) return { ...ending, kind: 'refused', spoke };
    return { ...ending, spoke };
  };

  /** False if the line was here before. */
  const hear = (frame: BoardFrame): boolean => {
    const arrivedAt = clock.wall();
    switch (frame.kind) {
      case 'hello':
        greet(frame);
        return true;
      case 'sample':
        // A line sent again that had come all the same is no bad line.
        if (!watch.isNew(frame.sequence, frame.resent)) return frame.resent;
        onEvent({
          type: 'sample',
          port: path,
          board: known!.board,
          sample: frame,
          arrivedAt,
          arrivedMonotonic: clock.monotonic(),
        });
        refill.took(frame);
        return true;
      case 'reply':
        if (frame.command === refillCommand) refill.reply(frame);
        else options.onReply?.(frame);
        return true;
    }
  };

  const greet = (hello: Hello): void => {
    const before = known;
    known = hello;
    const same = before?.board === hello.board;
    refill.hello(hello);
    if (!same || before.boot !== hello.boot) watch.restart(same);
    announcer.open(hello.board, same ? undefined : before?.board);
    onEvent({ type: 'hello', port: path, hello, arrivedAt: clock.wall() });
  };

  const run = async (): Promise<void> => {
    let wait: number = limits.reopenFirstMilliseconds;
    while (!closed) {
      const ending = await openOnce();
      if (closed) break;
      if (ending.kind !== 'closed') announcer.say(ending.kind, ending.cause, ending.advice);
      if (ending.spoke) wait = limits.reopenFirstMilliseconds;
      await new Promise<void>((resolve) => {
        const cancel = clock.after(milliseconds(wait), resolve);
        stop = () => {
          cancel();
          resolve();
        };
      });
      wait = Math.min(wait * 2, limits.reopenLongestMilliseconds);
    }
  };

  const running = run();
  return {
    send,
    counts: () => ({ ...counts, linesMissing: watch.missing() }),
    close: async () => {
      closed = true;
      stop();
      await running;
    },
  };
};

/** Writes through the port; a failure is a loss of the link, and a port that takes nothing is not filled without end. */
const boundedWriter = (port: Port, lose: (cause: string) => void): ((text: string) => boolean) => {
  let waiting = 0;
  return (text) => {
    if (waiting >= limits.commandsWaitingMaximum) return false;
    waiting += 1;
    port.write(text).then(
      () => {
        waiting -= 1;
      },
      (error) => lose(`writing failed: ${asError(error).message}`),
    );
    return true;
  };
};

const asError = (error: unknown): Error => (error instanceof Error ? error : new Error(String(error)));
