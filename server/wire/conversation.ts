/**
 * What one opening of a port says, from its first byte to its end: waits for the board's hello, asks for it
 * until it comes, hands on what belongs to it, and notices silence. Knows no port and no opening again: it
 * gets bytes, gives bytes, and says once why it ended.
 */
import { decode } from '../../firmware-protocol/codec/decode.ts';
import { encode } from '../../firmware-protocol/codec/encode.ts';
import type { BoardFrame, Frame, Hello, Sample } from '../../firmware-protocol/codec/frame.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import { openIntake } from './line-intake.ts';

export interface ConversationHandlers {
  write(text: string): void;
  /** A frame of the board whose hello stands, the hello itself included. Answers false if the line was here before. */
  onBoardFrame(frame: BoardFrame): boolean;
  /** The board that spoke has started again, or is another one: its hello is awaited. */
  onHelloNeeded(cause: string): void;
  onLine(good: boolean): void;
  onDropped(bytes: number): void;
  /** Once. refused: the other side is not a board that this station can read. */
  onEnd(end: { readonly kind: 'lost' | 'refused'; readonly cause: string; readonly advice?: string }): void;
}

export interface Conversation {
  take(bytes: Uint8Array): void;
  /** Nothing is handed on after this, and no end is told. */
  close(): void;
}

/** Commands of the link itself bear this number; others choose theirs above it. */
export const ownCommand = 0;

export const openConversation = (clock: Clock, handlers: ConversationHandlers): Conversation => {
  let hello: Hello | undefined;
  let heardAt = clock.monotonic();
  let waitingSince = heardAt;
  let bytesTaken = 0;
  let lastBad = '';
  let doubted = false;
  let ended = false;
  let cancel = (): void => {};

  const close = (): void => {
    if (ended) return;
    ended = true;
    cancel();
    intake.close();
  };

  const end = (kind: 'lost' | 'refused', cause: string, advice?: string): void => {
    if (ended) return;
    close();
    handlers.onEnd({ kind, cause, ...(advice === undefined ? {} : { advice }) });
  };

  const onLine = (line: string): void => {
    if (ended) return;
    const decoded = decode(line);
    if (decoded.ok && isFromBoard(decoded.frame)) {
      hear(decoded.frame);
      return;
    }
    handlers.onLine(false);
    if (decoded.ok) {
      lastBad = 'what the station sends comes back';
    } else if (decoded.rejection === 'unknown revision') {
      end('refused', `the board speaks ${decoded.detail}`, 'Bring the station and the firmware to the same revision.');
    } else {
      lastBad = `${decoded.rejection}: ${decoded.detail}`;
    }
  };

  const hear = (frame: BoardFrame): void => {
    heardAt = clock.monotonic();
    if (frame.kind === 'hello') hello = frame;
    if (frame.kind === 'sample' && hello !== undefined) {
      if (frame.boot !== hello.boot) forget('samples of another start of the board');
      else if (!keepsPromise(frame, hello)) doubt();
    }
    if (ended) return;
    // A whole line, but of nobody known yet: it counts as good, is not handed on, and the hello is being asked for.
    handlers.onLine(hello === undefined || handlers.onBoardFrame(frame));
  };

  const forget = (cause: string): void => {
    hello = undefined;
    waitingSince = clock.monotonic();
    handlers.onHelloNeeded(cause);
  };

  /** The hello may have changed without our hearing it; if a fresh one does not fit either, the firmware is at fault. */
  const doubt = (): void => {
    if (doubted) end('refused', 'the samples are not what the hello says', "The board's firmware has to be put right.");
    else forget('samples that the hello does not announce');
    doubted = true;
  };

  const intake = openIntake({ onLine, onDropped: handlers.onDropped });

  /** Wakes at least each second: asks while there is no hello, measures the silence once there is one. */
  const watch = (): void => {
    if (ended) return;
    const now = clock.monotonic();
    let next: number = limits.helloAskMilliseconds;
    if (hello === undefined) {
      if (now - waitingSince >= limits.helloWaitMilliseconds) {
        end('refused', ...strange(bytesTaken, lastBad));
        return;
      }
      handlers.write(`\n${encode({ kind: 'ask hello', command: ownCommand })}\n`);
    } else {
      const allowed = Math.max(limits.linkSilenceMilliseconds, 3 * hello.periodMilliseconds);
      if (now - heardAt >= allowed) {
        end('lost', `no whole line for ${allowed / 1000} s`);
        return;
      }
      next = Math.min(next, allowed - (now - heardAt));
    }
    cancel = clock.after(milliseconds(next), watch);
  };

  watch();
  return {
    take: (bytes) => {
      if (ended) return;
      bytesTaken += bytes.length;
      intake.take(bytes);
    },
    close,
  };
};

/** Why no hello came, as far as what did come tells, and what to look at. */
const strange = (bytesTaken: number, lastBad: string): [cause: string, advice: string] => {
  if (bytesTaken === 0) {
    return ['nothing comes from this port', 'See that the board has power, and that this is its port.'];
  }
  // The cause stays the same from try to try, so that it is told once; what was seen last goes with the advice.
  const advice = 'Either the speed of the port is wrong, or what is connected there is no board of this station.';
  if (lastBad === '') return ['bytes come, but no whole line', advice];
  return ['bytes come, but no hello', `${advice} The last line was refused: ${lastBad}.`];
};

const isFromBoard = (frame: Frame): frame is BoardFrame =>
  frame.kind === 'hello' || frame.kind === 'sample' || frame.kind === 'reply';

const keepsPromise = (sample: Sample, hello: Hello): boolean =>
  sample.values.every(({ channel, reading }) => {
    const promised = hello.channels.find((candidate) => candidate.channel === channel);
    return promised !== undefined && (reading.form === 'none' || reading.form === promised.form);
  });
