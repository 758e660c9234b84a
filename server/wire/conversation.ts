/**
 * What one opening of a port says, from its first byte to its end: waits for the board's hello, asks for it
 * until it comes, hands on what belongs to it, and notices silence. Knows no port and no opening again: it
 * gets bytes, gives bytes, and says once why it ended. What speaks and is no board is asked nothing more.
 */
import { decode } from '../../firmware-protocol/codec/decode.ts';
import { encode } from '../../firmware-protocol/codec/encode.ts';
import type { BoardFrame, Frame, Hello, Rejection, Sample } from '../../firmware-protocol/codec/frame.ts';
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import { openIntake } from './line-intake.ts';
import { createStranger, type Stranger } from './stranger.ts';

/** Why a line was not taken: what the codec says of it, or that it is no word of a board, or was here before. */
export type LineFault = Rejection | 'our own words' | 'here before';

export interface ConversationEnd {
  readonly kind: 'lost' | 'refused';
  readonly cause: string;
  readonly advice?: string;
  /** Bytes that this speed does not make readable; or another device that speaks text. */
  readonly strange?: 'unreadable' | 'text';
}

export interface ConversationHandlers {
  write(text: string): void;
  /** False where another port has this board: it is then asked again, and nothing of it is handed on. */
  onHello(hello: Hello): boolean;
  /** A frame of the board whose hello stands. Answers false if the line was here before. */
  onBoardFrame(frame: Exclude<BoardFrame, Hello>): boolean;
  /** The board that spoke has started again, or is another one: its hello is awaited. */
  onHelloNeeded(cause: string): void;
  onLine(line: string, fault: LineFault | undefined): void;
  onDropped(bytes: number): void;
  /** Once. refused: the other side is not a board that this station can read. */
  onEnd(end: ConversationEnd): void;
}

export interface ConversationOptions {
  /** Nothing is written before this: a port that nobody named may belong to something else. */
  readonly listenFirst?: boolean;
  /** A board of this station spoke here before: what is strange now is noise. */
  readonly spokeBefore?: boolean;
}

export interface Conversation {
  take(bytes: Uint8Array): void;
  /** Nothing is handed on after this, and no end is told. */
  close(): void;
}

/** Commands of the link itself bear this number; others choose theirs above it. */
const ownCommand = 0;

export const openConversation = (
  clock: Clock,
  handlers: ConversationHandlers,
  { listenFirst = false, spokeBefore = false }: ConversationOptions = {},
): Conversation => {
  const openedAt = clock.monotonic();
  const stranger = createStranger();
  let hello: Hello | undefined;
  let known = spokeBefore;
  /** The last whole line, and the last byte. */
  let heardAt = openedAt;
  let byteAt = openedAt;
  let waitingSince = openedAt;
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

  const end = (how: ConversationEnd): void => {
    if (ended) return;
    close();
    handlers.onEnd(how);
  };

  const onLine = (line: string): void => {
    if (ended) return;
    const decoded = decode(line);
    if (decoded.ok && isFromBoard(decoded.frame)) {
      hear(line, decoded.frame);
      return;
    }
    handlers.onLine(line, decoded.ok ? 'our own words' : decoded.rejection);
    stranger.refusedLine(decoded.ok || decoded.rejection === 'wrong check value');
    if (decoded.ok) {
      lastBad = 'what the station sends comes back';
    } else if (decoded.rejection === 'unknown revision') {
      const advice = 'Bring the station and the firmware to the same revision.';
      end({ kind: 'refused', cause: `the board speaks ${decoded.detail}`, advice });
    } else {
      lastBad = `${decoded.rejection}: ${decoded.detail}`;
    }
  };

  const hear = (line: string, frame: BoardFrame): void => {
    heardAt = clock.monotonic();
    known = true;
    stranger.frame();
    if (frame.kind === 'hello') {
      greet(line, frame);
      return;
    }
    if (frame.kind === 'sample' && hello !== undefined) {
      if (frame.boot !== hello.boot) forget('samples of another start of the board');
      else if (!keepsPromise(frame, hello)) doubt();
    }
    if (ended) return;
    // A whole line, but of nobody known yet: it counts as good, is not handed on, and the hello is being asked for.
    handlers.onLine(line, hello === undefined || handlers.onBoardFrame(frame) ? undefined : 'here before');
  };

  const greet = (line: string, said: Hello): void => {
    waitingSince = clock.monotonic();
    hello = handlers.onHello(said) ? said : undefined;
    handlers.onLine(line, undefined);
  };

  const forget = (cause: string): void => {
    hello = undefined;
    waitingSince = clock.monotonic();
    handlers.onHelloNeeded(cause);
  };

  /** The hello may have changed without our hearing it; if a fresh one does not fit either, the firmware is at fault. */
  const doubt = (): void => {
    if (doubted) {
      const advice = "The board's firmware has to be put right.";
      end({ kind: 'refused', cause: 'the samples are not what the hello says', advice });
    } else forget('samples that the hello does not announce');
    doubted = true;
  };

  const intake = openIntake({ onLine, onDropped: handlers.onDropped });

  /** Wakes at least each second: asks while there is no hello, measures the silence once there is one. */
  const watch = (): void => {
    if (ended) return;
    const now = clock.monotonic();
    const next = hello === undefined ? ask(now) : listen(now, hello);
    if (ended) return;
    const due = now + next;
    cancel = clock.after(milliseconds(next), () => {
      awake(clock.monotonic() - due);
      watch();
    });
  };

  /** While the station itself stood still nothing could be heard: what waits in the port is read before silence is judged. */
  const awake = (late: number): void => {
    if (late < limits.oversleptMilliseconds) return;
    heardAt += late;
    byteAt += late;
    waitingSince += late;
  };

  const ask = (now: number): number => {
    const strange = known ? 'perhaps' : stranger.verdict(now - openedAt);
    if (strange === 'unreadable' || strange === 'text') {
      end({ ...strangeEnd(strange, lastBad), strange });
    } else if (now - waitingSince >= limits.helloWaitMilliseconds) {
      end({ kind: 'refused', ...(known && bytesTaken > 0 ? instead(stranger) : silentEnd(bytesTaken, lastBad)) });
    } else if (listenFirst && !known && now - openedAt < limits.listenFirstMilliseconds) {
      return limits.listenFirstMilliseconds - (now - openedAt);
    } else if (known ? !stranger.isPlainText() : !stranger.doubtful()) {
      handlers.write(`\n${encode({ kind: 'ask hello', command: ownCommand })}\n`);
    }
    return limits.helloAskMilliseconds;
  };

  /** A port that gives no byte is frozen or gone. One that gives noise is let be for longer: opening it anew starts many boards anew. */
  const listen = (now: number, { periodMilliseconds }: Hello): number => {
    const silence = Math.max(limits.linkSilenceMilliseconds, 3 * periodMilliseconds);
    const noise = Math.max(limits.linkNoiseMilliseconds, 6 * periodMilliseconds);
    if (now - byteAt >= silence) end({ kind: 'lost', cause: `nothing came for ${silence / 1000} s` });
    else if (now - heardAt >= noise) end({ kind: 'lost', cause: `no whole line for ${noise / 1000} s, only noise` });
    return Math.min(limits.helloAskMilliseconds, silence - (now - byteAt), noise - (now - heardAt));
  };

  watch();
  return {
    take: (bytes) => {
      if (ended) return;
      bytesTaken += bytes.length;
      byteAt = clock.monotonic();
      if (hello === undefined) stranger.bytes(bytes);
      intake.take(bytes);
    },
    close,
  };
};

const strangeEnd = (strange: 'unreadable' | 'text', lastBad: string): Omit<ConversationEnd, 'strange'> =>
  strange === 'text'
    ? {
        kind: 'refused',
        cause: 'another device speaks here, not a board of this station',
        advice: `It is left alone. If a board should be here, check the cable and the port.${refusedLast(lastBad)}`,
      }
    : {
        kind: 'refused',
        cause: 'bytes come that are no text at this speed',
        advice: `Either the speed of the port is wrong, or what is connected there is no board of this station.${refusedLast(lastBad)}`,
      };

/** What comes where a board of this station spoke before. */
const instead = (stranger: Stranger): { readonly cause: string; readonly advice: string } =>
  stranger.isPlainText() ? otherText : onlyNoise;

const otherText = {
  cause: 'another device speaks where a board spoke before',
  advice:
    'See what is plugged in at this port: nothing of it is read, and it is asked nothing more. Once the board is back it is read again by itself.',
};

const onlyNoise = {
  cause: 'only noise comes where a board spoke before',
  advice:
    'Lead the cable away from the arc and its return, put ferrites on it or an isolator for USB between; check its plugs. The station goes on trying.',
};

/** Why no hello came, as far as what did come tells, and what to look at. */
const silentEnd = (bytesTaken: number, lastBad: string): { readonly cause: string; readonly advice: string } => {
  if (bytesTaken === 0) {
    return {
      cause: 'nothing comes from this port',
      advice: 'See that the board has power, and that this is its port.',
    };
  }
  // The cause stays the same from try to try, so that it is told once; what was seen last goes with the advice.
  const advice = 'Either the speed of the port is wrong, or what is connected there is no board of this station.';
  if (lastBad === '') return { cause: 'bytes come, but no whole line', advice };
  return { cause: 'bytes come, but no hello', advice: `${advice}${refusedLast(lastBad)}` };
};

const refusedLast = (lastBad: string): string => (lastBad === '' ? '' : ` The last line was refused: ${lastBad}.`);

const isFromBoard = (frame: Frame): frame is BoardFrame =>
  frame.kind === 'hello' || frame.kind === 'sample' || frame.kind === 'reply';

const keepsPromise = (sample: Sample, hello: Hello): boolean =>
  sample.values.every(({ channel, reading }) => {
    const promised = hello.channels.find((candidate) => candidate.channel === channel);
    return promised !== undefined && (reading.form === 'none' || reading.form === promised.form);
  });
