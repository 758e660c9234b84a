/**
 * The master's side of one serial line. One question is open at a time. A question that found no answer makes the line wait
 * until its slave can no longer answer: what comes in that time is dropped, so that a late answer is never taken for the
 * answer to the next question. Knows no port: it gets bytes, gives bytes, and is woken by the clock handed in.
 */
import type { Clock } from '../../measure/clock.ts';
import { limits } from '../../measure/limits.ts';
import { milliseconds } from '../../measure/quantity.ts';
import { type Exchange, failed, type Outcome, type Question } from './question.ts';
import { answerIn, answerLength, questionBytes, troubleIn } from './rtu-frame.ts';

export interface RtuLineOptions {
  readonly clock: Clock;
  readonly write: (bytes: Uint8Array) => void;
  readonly baud: number;
  readonly answerWithinMilliseconds: number;
  /** Nothing comes later than this after a question. */
  readonly slowestAnswerMilliseconds: number;
}

export interface RtuLine extends Exchange {
  take(bytes: Uint8Array): void;
  /** Answers that came after their time, and bytes that nobody asked for. */
  dropped(): { readonly late: number; readonly bytes: number };
}

interface Open {
  readonly question: Question;
  readonly done: (outcome: Outcome) => void;
}

export const createRtuLine = (options: RtuLineOptions): RtuLine => {
  const { clock, baud } = options;
  const gap = silence(baud);
  let waiting: Open | undefined;
  let open: (Open & { readonly askedAt: number }) | undefined;
  /**
   * The question that found no answer, until its slave can no longer answer. At first nobody knows what was asked before this
   * line was opened.
   */
  let unanswered: { readonly question?: Question; readonly until: number } | undefined = {
    until: clock.monotonic() + options.slowestAnswerMilliseconds,
  };
  let came = new Uint8Array(0);
  let heardAt = Number.NEGATIVE_INFINITY;
  let late = 0;
  let bytesDropped = 0;
  let closed = false;
  let cancel = (): void => {};

  const wake = (at: number, then: () => void): void => {
    cancel();
    cancel = clock.after(milliseconds(Math.max(1, Math.ceil(at - clock.monotonic()))), () => {
      if (!closed) then();
    });
  };

  const hold = (bytes: Uint8Array): void => {
    const room = Math.max(0, limits.answerHeldMaximum - came.length);
    if (bytes.length > room) bytesDropped += bytes.length - room;
    const both = new Uint8Array(came.length + Math.min(room, bytes.length));
    both.set(came);
    both.set(bytes.subarray(0, room), came.length);
    came = both;
  };

  const forget = (): void => {
    bytesDropped += came.length;
    came = new Uint8Array(0);
  };

  const finish = (outcome: Outcome): void => {
    const { done } = open!;
    open = undefined;
    cancel();
    came = new Uint8Array(0);
    done(outcome);
  };

  const giveUp = (): void => {
    const { question, askedAt } = open!;
    const until = askedAt + options.slowestAnswerMilliseconds + duration(answerLength(question), baud);
    const trouble = troubleIn(came, question);
    unanswered = { question, until };
    finish(trouble);
  };

  const giveBack = (): void => {
    const { done } = waiting!;
    waiting = undefined;
    done(failed('line not quiet', neverQuiet));
  };

  /** Sends what waits once the line is free: no late answer can come, and nothing was heard for three and a half characters. */
  const sendWhenFree = (since: number): void => {
    const now = clock.monotonic();
    const freeAt = Math.max(unanswered?.until ?? 0, heardAt + gap);
    if (now < freeAt) {
      const patience = (unanswered?.until ?? since) + limits.lineQuietMilliseconds;
      if (now < patience) wake(Math.min(freeAt, patience), () => sendWhenFree(since));
      else giveBack();
      return;
    }
    unanswered = undefined;
    forget();
    const { question } = waiting!;
    open = { ...waiting!, askedAt: now };
    waiting = undefined;
    options.write(questionBytes(question));
    const sent = 2 * duration(8, baud) + duration(answerLength(question), baud);
    wake(now + options.answerWithinMilliseconds + sent, giveUp);
  };

  return {
    ask(question, done) {
      if (waiting !== undefined || open !== undefined) throw new Error('one question at a time');
      waiting = { question, done };
      sendWhenFree(clock.monotonic());
    },
    take(bytes) {
      if (closed || bytes.length === 0) return;
      heardAt = clock.monotonic();
      hold(bytes);
      if (open !== undefined) {
        const answer = answerIn(came, open.question);
        if (answer !== undefined) finish(answer);
        return;
      }
      // Nobody asks now: what comes is late, or nobody's.
      if (unanswered?.question !== undefined && answerIn(came, unanswered.question) !== undefined) {
        late += 1;
        // It has come, and nothing else can.
        unanswered = { ...unanswered, until: heardAt + gap };
        came = new Uint8Array(0);
        if (waiting !== undefined) sendWhenFree(heardAt);
      } else if (came.length >= limits.answerHeldMaximum || unanswered === undefined) forget();
    },
    dropped: () => ({ late, bytes: bytesDropped }),
    close() {
      closed = true;
      cancel();
    },
  };
};

const neverQuiet = 'the line is never quiet; look for another master, a wrong speed, or missing ends of the line';

/** Eleven bits a character: start, eight of data, parity or a second stop, stop. */
const duration = (characters: number, baud: number): number => (characters * 11_000) / baud;

/** Three and a half characters, from 19200 baud on 1.75 ms (Modbus over serial line, section 2.5.1.1); with room for a clock of whole milliseconds. */
const silence = (baud: number): number => Math.max(1.75, duration(3.5, baud)) + 2;
