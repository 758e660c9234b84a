/** A link, an emulated board and an in-process cable on one hand-moved clock, for the tests of the link. */
import { type Board, type BoardOptions, createBoard } from '../../../firmware-protocol/emulator/board.ts';
import type { WireEvent } from '../../../server/wire/event.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import { type BoardLink, openLink } from '../../../server/wire/serial-link.ts';
import { createHandClock, type HandClock } from './hand-clock.ts';

export const oneBoard = (options: Partial<BoardOptions> = {}): Board =>
  createBoard({
    identity: 'PB-0001',
    seed: 7,
    channels: [
      { channel: 1, thermocouple: 'K', where: { at: 'part', depth: 0, distanceMillimetres: 75 } },
      { channel: 2, thermocouple: 'J', where: { at: 'part', depth: 1, distanceMillimetres: 75 } },
    ],
    ...options,
  });

export interface Bench {
  readonly clock: HandClock;
  readonly link: BoardLink;
  readonly cable: ReturnType<typeof createInProcessPort>;
  readonly events: WireEvent[];
  /** Board and station live on together, in steps of 50 ms. */
  run(milliseconds: number): Promise<void>;
  /** The board at the far end of the cable; another one may be put there. */
  put(board: Board): void;
  states(): string[];
  samples(): Extract<WireEvent, { type: 'sample' }>[];
  hellos(): Extract<WireEvent, { type: 'hello' }>[];
}

export const setUp = (board: Board, platform = 'linux'): Bench => {
  const clock = createHandClock();
  const cable = createInProcessPort();
  const events: WireEvent[] = [];
  let present = board;
  cable.onData((bytes) => present.receive(bytes));
  const link = openLink({
    path: 'bench',
    openPort: cable.openPort,
    clock,
    platform,
    onEvent: (event) => events.push(event),
  });
  return {
    clock,
    link,
    cable,
    events,
    run: async (milliseconds) => {
      for (let passed = 0; passed < milliseconds; passed += 50) {
        await clock.advance(50);
        cable.write(present.advance(50));
      }
      await clock.advance(0);
    },
    put: (next) => {
      present = next;
    },
    states: () => events.flatMap((event) => (event.type === 'link' ? [event.state] : [])),
    samples: () => events.filter((event) => event.type === 'sample'),
    hellos: () => events.filter((event) => event.type === 'hello'),
  };
};
