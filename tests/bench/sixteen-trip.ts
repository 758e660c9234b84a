/** The trip of a board with sixteen channels that speaks ten times a second: link, reading, judgement, commit. Time is moved by hand. */
import { createPipeline, type Store } from '../../server/pipeline.ts';
import type { FastClock } from '../../server/station/fast-clock.ts';
import { createInProcessPort } from '../../server/wire/in-process-port.ts';
import { openLink } from '../../server/wire/serial-link.ts';
import { boardName, sixteenChannelBoard, sixteenChannelJoint } from './sixteen-channels.ts';

const periodMilliseconds = 100;

export interface Trip {
  /** Bytes of one period go in, and that much time passes. */
  play(bytes: string): Promise<void>;
  /** What the board says next, in so many periods. */
  next(periods: number): string[];
  close(): Promise<void>;
}

export async function startTrip(clock: FastClock, store: Store): Promise<Trip> {
  const pipeline = createPipeline({ store, clock, rules: 'bench', station: 'bench' });
  const board = sixteenChannelBoard(periodMilliseconds);
  const cable = createInProcessPort();
  cable.onData((bytes) => board.receive(bytes));
  const onEvent = pipeline.wire;
  const link = openLink({ path: 'bench', openPort: cable.openPort, clock, platform: 'linux', onEvent });
  const play = async (bytes: string): Promise<void> => {
    const expected = link.counts().linesGood + (bytes.match(/\n/g)?.length ?? 0);
    cable.write(bytes);
    for (let turns = 0; link.counts().linesGood < expected && turns < 20; turns += 1) await turn();
    clock.move(periodMilliseconds);
  };

  const isHeard = (): boolean => pipeline.intake.boards.byId.has(boardName);
  for (let tries = 0; !isHeard() && tries < 200; tries += 1) await play(board.advance(periodMilliseconds));
  if (!isHeard()) throw new Error('the board was not heard');
  const opening = pipeline.open(sixteenChannelJoint(), 'Bench');
  clock.move(periodMilliseconds);
  await opening;
  return {
    play,
    next: (periods) => Array.from({ length: periods }, () => board.advance(periodMilliseconds)),
    async close() {
      await link.close();
      pipeline.close();
    },
  };
}

const turn = (): Promise<void> => new Promise((resume) => setImmediate(resume));
