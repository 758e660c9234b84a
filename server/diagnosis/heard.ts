/** A port that a person may listen to: the newest lines as they came, and all its bytes for a capture. */
import { type Connection, placeOf } from '../weld/connection/connection.ts';
import type { CaptureEvent } from '../wire/capture.ts';
import type { Overheard } from '../wire/connection/overheard.ts';
import type { RawLine } from '../wire/raw-lines.ts';
import type { BoardLink } from '../wire/serial-link.ts';
import type { Hear } from '../wire/traffic.ts';

export interface Heard {
  /** What is opened: several instruments may be heard at one. */
  readonly port: string;
  lines(after: number): readonly RawLine[];
  /** Absent where questions and answers are heard, and no bytes. */
  readonly bytes?: {
    tap(hear: Hear): () => void;
    /** What a capture begins with, so that whoever plays it finds an opening before the first byte. */
    asOpened(): readonly Omit<CaptureEvent, 'milliseconds'>[];
  };
}

export const heardBoard = (port: string, link: BoardLink): Heard => ({
  port,
  lines: link.lines,
  bytes: {
    tap: link.tap,
    // It is asked who it is, since a reading is taken after a hello only. The line feed stands for the cut line that a real
    // opening begins with.
    asOpened: () =>
      link.send({ kind: 'ask hello', command: 65_534 })
        ? [
            { kind: 'open', text: String(link.baudRate()) },
            { kind: 'in', text: '\n' },
          ]
        : [],
  },
});

export const heardConnection = (connection: Connection, overheard: Overheard): Heard => ({
  port: placeOf(connection),
  lines: overheard.lines,
  ...(connection.kind === 'modbus tcp'
    ? {}
    : {
        bytes: {
          tap: overheard.tap,
          asOpened: () => {
            const text = overheard.opened();
            return text === undefined ? [] : [{ kind: 'open', text }];
          },
        },
      }),
});
