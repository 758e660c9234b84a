/**
 * Plays a capture as the line of an instrument that is no board. One that speaks by itself is heard at the times of the capture. One
 * that is asked answers what it answered when it was asked the same, as long after the question: whoever plays it asks in its own time.
 */
import type { Clock } from '../../measure/clock.ts';
import { milliseconds } from '../../measure/quantity.ts';
import type { Capture, CaptureEvent } from '../capture.ts';
import type { OpenPort, PortHandlers } from '../port.ts';

export interface PlayedLine {
  readonly openPort: OpenPort;
  /** Resolves when all that comes by itself was played. */
  play(): Promise<void>;
}

/** What follows a question, up to the next. */
interface Answered {
  readonly asked: string;
  readonly from: number;
  readonly came: readonly CaptureEvent[];
}

export function createPlayedLine(clock: Clock, { events }: Capture): PlayedLine {
  const { unasked, answered } = parted(events);
  let open: PortHandlers | undefined;
  let next = 0;
  let plugged = waiting();
  let isOver = false;

  const at = (duration: number, then: () => void): void => {
    if (duration <= 0) then();
    else clock.after(milliseconds(duration), then);
  };

  const answer = (text: string): void => {
    const found = answered.findIndex(({ asked }, index) => index >= next && asked === text);
    if (found < 0) return;
    next = found + 1;
    const { from, came } = answered[found]!;
    const heardBy = open;
    for (const event of came)
      at(event.milliseconds - from, () => {
        // A line that was lost meanwhile gives no answer any more.
        if (open === heardBy) open?.onBytes(Buffer.from(event.text, 'latin1'));
      });
  };

  return {
    // Not there before the capture opens it: whoever opens it waits.
    openPort: async (_path, handlers) => {
      await plugged.wait;
      if (isOver) throw new Error('the capture is at its end');
      open = handlers;
      return {
        write: async (text) => answer(text),
        close: async () => {
          if (open === handlers) open = undefined;
        },
      };
    },
    async play() {
      const begun = clock.monotonic();
      for (const { kind, milliseconds: due, text } of unasked) {
        const left = due - (clock.monotonic() - begun);
        if (left > 0) await new Promise<void>((resolve) => void clock.after(milliseconds(left), resolve));
        if (kind === 'in') open?.onBytes(Buffer.from(text, 'latin1'));
        if (kind === 'open') plugged.done();
        if (kind === 'lost') {
          plugged = waiting();
          const gone = open;
          open = undefined;
          gone?.onLost(text);
        }
      }
      isOver = true;
      plugged.done();
    },
  };
}

function waiting(): { readonly wait: Promise<void>; readonly done: () => void } {
  let done = (): void => {};
  const wait = new Promise<void>((resolve) => {
    done = resolve;
  });
  return { wait, done };
}

function parted(events: readonly CaptureEvent[]): {
  readonly unasked: readonly CaptureEvent[];
  readonly answered: readonly Answered[];
} {
  const unasked: CaptureEvent[] = [];
  const answered: { asked: string; from: number; came: CaptureEvent[] }[] = [];
  let question: (typeof answered)[number] | undefined;
  for (const event of events) {
    if (event.kind === 'out') {
      question = { asked: event.text, from: event.milliseconds, came: [] };
      answered.push(question);
    } else if (event.kind === 'in' && question !== undefined) question.came.push(event);
    else {
      question = undefined;
      unasked.push(event);
    }
  }
  return { unasked, answered };
}
