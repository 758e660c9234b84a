/**
 * What goes over the line of an instrument that is no board, heard between the port and whoever reads it: the newest lines for a person
 * who looks for what is wrong, and every byte for a capture.
 */
import type { Clock } from '../../measure/clock.ts';
import { limits } from '../../measure/limits.ts';
import type { Connection } from '../../weld/connection/connection.ts';
import type { Exchange, Outcome, Question } from '../modbus/question.ts';
import type { OpenPort } from '../port.ts';
import { createRawLines, type RawLine } from '../raw-lines.ts';
import { createTaps, type Hear } from '../traffic.ts';

export interface Overheard {
  /** The same port, heard. `opened`: its speed, or nothing. */
  port(open: OpenPort, opened: string): OpenPort;
  /** The same questions, heard: of these there are lines and no bytes. */
  exchange(exchange: Exchange): Exchange;
  lines(after: number): readonly RawLine[];
  tap(hear: Hear): () => void;
  /** The opening that stands, as it was told to a tap; undefined while there is none. */
  opened(): string | undefined;
}

export function overhear(clock: Clock, kind: Connection['kind']): Overheard {
  const raw = createRawLines(limits.rawLinesKept);
  const taps = createTaps(clock);
  const add = (way: RawLine['way'], text: string): void => raw.add(clock.wall(), way, text);
  const came =
    kind === 'text lines' ? joined((line) => add('in', line)) : (bytes: Uint8Array) => add('in', hexadecimal(bytes));
  let opening: string | undefined;
  const lost = (cause: string): void => {
    opening = undefined;
    taps.tell('lost', cause);
  };
  return {
    port: (open, opened) => async (path, handlers, baudRate) => {
      const port = await open(
        path,
        {
          onBytes(bytes) {
            taps.tell('in', bytes);
            came(bytes);
            handlers.onBytes(bytes);
          },
          onLost(cause) {
            lost(cause);
            handlers.onLost(cause);
          },
        },
        baudRate,
      );
      opening = opened;
      taps.tell('open', opened);
      return {
        write(text) {
          taps.tell('out', text);
          add('out', kind === 'text lines' ? text.trimEnd() : hexadecimal(Buffer.from(text, 'latin1')));
          return port.write(text);
        },
        async close() {
          if (opening !== undefined) lost('closed by the station');
          await port.close();
        },
      };
    },
    exchange: (exchange) => ({
      ask(question, done) {
        add('out', questionText(question));
        exchange.ask(question, (outcome) => {
          add('in', outcomeText(outcome));
          done(outcome);
        });
      },
      close: exchange.close,
    }),
    lines: raw.after,
    tap: taps.add,
    opened: () => opening,
  };
}

/** Pieces as they come, whole lines as they go on; a line without an end is given out once it is long. */
function joined(give: (line: string) => void): (bytes: Uint8Array) => void {
  let held = '';
  return (bytes) => {
    const pieces = (held + Buffer.from(bytes).toString('latin1')).split(/[\r\n]+/);
    held = pieces.pop()!;
    for (const piece of pieces) if (piece !== '') give(piece);
    if (held.length < limits.textLineMaximum) return;
    give(held);
    held = '';
  };
}

const hexadecimal = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join(' ');

const questionText = ({ address, function: code, register, count }: Question): string =>
  `slave ${address}, ${code === 3 ? 'holding' : 'input'} registers ${register} to ${register + count - 1} (the first is 0)`;

const outcomeText = (outcome: Outcome): string =>
  outcome.ok ? outcome.words.join(' ') : `${outcome.error}: ${outcome.detail}`;
