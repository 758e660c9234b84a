/**
 * A station on a moved clock that reads a board through a real pseudo-terminal with the real serial library. Time of
 * board and station goes on only when all bytes of both have arrived, so that a busy machine changes nothing.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Board } from '../../firmware-protocol/emulator/board.ts';
import { createPipeline, type Pipeline } from '../../server/pipeline.ts';
import { openRecord, type RecordStore } from '../../server/record/store.ts';
import type { WireEvent } from '../../server/wire/event.ts';
import type { OpenPort } from '../../server/wire/port.ts';
import type { PseudoTerminal } from '../../server/wire/pseudo-terminal.ts';
import { type Link, openLink } from '../../server/wire/serial-link.ts';
import { serialPortOpener } from '../../server/wire/serial-port.ts';
import { createMovedClock } from './moved-clock.ts';

export interface TerminalStation {
  readonly pipeline: Pipeline;
  readonly record: RecordStore;
  readonly link: Link;
  readonly events: readonly WireEvent[];
  /** Board and station live on together. */
  run(milliseconds: number): Promise<void>;
  end(): Promise<void>;
}

const step = 1_000;
/** Bytes that were under way when the port was closed never arrive; real milliseconds. */
const patience = 500;

export async function createTerminalStation(terminal: PseudoTerminal, board: Board): Promise<TerminalStation> {
  const folder = mkdtempSync(join(tmpdir(), 'preheat-terminal-'));
  const clock = createMovedClock();
  const record = openRecord({ folder, begin: true, program: 'terminal', now: clock.wall });
  const pipeline = createPipeline({ store: record, clock, rules: 'terminal', station: 'terminal' });
  const events: WireEvent[] = [];
  const toStation = { sent: 0, come: 0 };
  const toBoard = { sent: 0, come: 0 };
  let opening = 0;

  const openReal = serialPortOpener();
  const openPort: OpenPort = async (path, handlers) => {
    opening += 1;
    try {
      const port = await openReal(path, {
        ...handlers,
        onBytes: (bytes) => {
          toStation.come += bytes.length;
          handlers.onBytes(bytes);
        },
      });
      return {
        ...port,
        write: (text) => {
          toBoard.sent += text.length;
          return port.write(text);
        },
      };
    } finally {
      opening -= 1;
    }
  };
  terminal.onData((bytes) => {
    toBoard.come += bytes.length;
    board.receive(bytes);
  });
  const link = openLink({
    path: terminal.path,
    openPort,
    clock,
    platform: process.platform,
    onEvent: (event) => {
      events.push(event);
      pipeline.wire(event);
    },
  });

  const arrived = async (): Promise<void> => {
    const until = performance.now() + patience;
    const isQuiet = (): boolean => opening === 0 && toStation.come >= toStation.sent && toBoard.come >= toBoard.sent;
    do await new Promise((resolve) => setImmediate(resolve));
    while (!isQuiet() && performance.now() < until);
    toStation.come = toStation.sent;
    toBoard.come = toBoard.sent;
  };

  return {
    pipeline,
    record,
    link,
    events,
    run: async (milliseconds) => {
      for (let passed = 0; passed < milliseconds; passed += step) {
        clock.move(step);
        const bytes = board.advance(step);
        toStation.sent += bytes.length;
        terminal.write(bytes);
        await arrived();
      }
    },
    end: async () => {
      await link.close();
      pipeline.close();
      record.close();
      terminal.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
