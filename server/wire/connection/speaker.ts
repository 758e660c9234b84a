/** Makes of a connected instrument what a board would be to the pipeline: a hello, readings in order, and how its link stands. */
import type { Clock } from '../../measure/clock.ts';
import type { Connected, Connection } from '../../weld/connection/connection.ts';
import { givenText } from '../../weld/connection/given.ts';
import type { ToldValue } from '../../weld/told.ts';
import { createAnnouncer } from '../announcer.ts';
import type { WireEvent } from '../event.ts';

export interface Speaker {
  readonly instrument: Connected;
  /** At each opening of its port. `ticks`: as of told. */
  hello(ticks?: number): void;
  /** `ticks`: of the clock that timed it, where that is not the station's. */
  told(values: readonly ToldValue[], ticks?: number): void;
  say(state: 'opening' | 'waiting for hello' | 'lost' | 'refused', cause: string, advice?: string): void;
  /** It answers. */
  heard(): void;
}

export interface SpeakerOptions {
  readonly connection: Connection;
  readonly instrument: Connected;
  readonly clock: Clock;
  readonly onEvent: (event: WireEvent) => void;
}

/** Ticks are counted in 32 bits, as a board's are. */
const ticksRange = 2 ** 32;

export const createSpeaker = ({ connection, instrument, clock, onEvent }: SpeakerOptions): Speaker => {
  const { board, port, channels } = instrument;
  const announcer = createAnnouncer(port, clock, onEvent);
  // Seconds: another start of the station is another boot, with ticks of its own.
  const boot = Math.floor(clock.wall() / 1000);
  const began = clock.monotonic();
  let sequence = 0;
  let newest: number | undefined;
  const ticksNow = (): number => Math.floor(clock.monotonic() - began) % ticksRange;
  return {
    instrument,
    hello(ticks = newest ?? ticksNow()) {
      onEvent({
        type: 'hello',
        port,
        connection,
        arrivedAt: clock.wall(),
        hello: {
          kind: 'hello',
          revision: 1,
          board,
          firmware: givenText(connection, board),
          simulated: false,
          boot,
          ticks,
          periodMilliseconds: connection.periodMilliseconds,
          channels,
          inputs: 0,
          linesKept: 0,
        },
      });
    },
    told(values, ticks = ticksNow()) {
      sequence += 1;
      newest = ticks;
      onEvent({ type: 'told', port, board, told: { boot, sequence, ticks, values }, arrivedAt: clock.wall() });
    },
    say: announcer.say,
    heard: () => announcer.open(board, undefined),
  };
};
