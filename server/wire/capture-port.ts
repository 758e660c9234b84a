/**
 * Plays a capture as a port: each opening, each piece of bytes and each loss at its own time, on the clock handed in.
 * What the station writes meanwhile goes nowhere: the answers that came are in the capture.
 */
import type { Clock } from '../measure/clock.ts';
import { milliseconds } from '../measure/quantity.ts';
import type { Capture } from './capture.ts';
import type { OpenPort, PortHandlers } from './port.ts';

export interface CapturePort {
  readonly openPort: OpenPort;
  /** Begins to play; tells of each opening, for a link that waits. Resolves when all has been played. */
  play(onOpen: () => void): Promise<void>;
}

export function createCapturePort(clock: Clock, { events }: Capture): CapturePort {
  let open: PortHandlers | undefined;
  let plugged = false;

  const openPort: OpenPort = async (_path, handlers) => {
    // As long as the capture has no opening the port is not there.
    if (!plugged) throw new Error('No such file or directory: the capture holds no opening here');
    open = handlers;
    return {
      write: async () => {},
      close: async () => {
        if (open === handlers) open = undefined;
      },
    };
  };

  const play = async (onOpen: () => void): Promise<void> => {
    const begun = clock.monotonic();
    for (const { kind, milliseconds: at, text } of events) {
      const wait = at - (clock.monotonic() - begun);
      if (wait > 0) await new Promise<void>((resolve) => void clock.after(milliseconds(wait), resolve));
      if (kind === 'in') open?.onBytes(Buffer.from(text, 'latin1'));
      if (kind === 'open') {
        plugged = true;
        onOpen();
        // Whoever waits for it takes it before the first byte.
        for (let turn = 0; turn < 4 && open === undefined; turn += 1)
          await new Promise((resume) => setImmediate(resume));
      }
      if (kind === 'lost') {
        plugged = false;
        open?.onLost(text);
        open = undefined;
      }
    }
  };
  return { openPort, play };
}
