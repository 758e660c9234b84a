/**
 * From the last byte of a line to the browser's side of the socket, at 16 channels and 10 lines a second, on the
 * machine's own clock: link, reading, judgement, commit to disk, and out. Up to 100 ms of it are the time in which
 * inputs wait to be committed together, which is the baseline.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { io } from 'socket.io-client';
import { limits } from '../../server/measure/limits.ts';
import type { LiveMessage } from '../../server/screen/contract.ts';
import { startStation } from '../../server/station/station.ts';
import { createInProcessPort } from '../../server/wire/in-process-port.ts';
import type { BenchSet } from './bench.ts';
import { benchStation } from './bench-station.ts';
import { boardName, channels, sixteenChannelBoard, sixteenChannelJoint } from './sixteen-channels.ts';

const periodMilliseconds = 100;

export async function prepareBench(): Promise<BenchSet> {
  const home = mkdtempSync(join(tmpdir(), 'bench-lag-'));
  const folder = join(home, 'record');
  const cable = createInProcessPort();
  const board = sixteenChannelBoard(periodMilliseconds);
  cable.onData((bytes) => board.receive(bytes));
  const station = await startStation({
    ...benchStation(folder),
    ports: ['bench'],
    openPort: cable.openPort,
  });
  const nextPeriod = async (): Promise<void> => {
    await wait(periodMilliseconds);
    cable.write(board.advance(periodMilliseconds));
  };
  const isHeard = (): boolean => station.pipeline.intake.boards.byId.has(boardName);
  for (let tries = 0; !isHeard() && tries < 100; tries += 1) await nextPeriod();
  if (!isHeard()) throw new Error('the board was not heard');
  const joint = sixteenChannelJoint();
  await station.pipeline.open(joint, 'Bench');

  const socket = io(station.address, { transports: ['websocket'] });
  let show = (_message: LiveMessage): void => {};
  socket.on('live', (message: LiveMessage) => show(message));
  const shown = (isIt: (message: LiveMessage) => boolean): Promise<void> =>
    new Promise((resolve) => {
      show = (message) => {
        if (isIt(message)) resolve();
      };
    });
  const caughtUp = shown((message) => message.assessment !== undefined);
  socket.emit('follow', { joint: joint.id, after: 0 });
  await caughtUp;

  let runs = 0;
  let bytes = '';
  return {
    title: 'Live: from the last byte of a line to a browser, 16 channels at 10 Hz',
    unit: 'lines',
    milliseconds: 20_000,
    baseline: {
      name: 'the wait for what is committed together',
      amount: 1,
      run: () => wait(limits.commitGroupMilliseconds),
    },
    rows: [
      {
        name: 'from the last byte to the browser',
        amount: 1,
        prepare: async () => {
          // The line falls into another part of the station's own beat each time.
          runs += 1;
          await wait(periodMilliseconds + (runs % 10) * 7);
          bytes = board.advance(periodMilliseconds);
        },
        run: async () => {
          const seen = shown((message) => message.readings.length >= channels.length);
          cable.write(bytes);
          await seen;
        },
        mostMilliseconds: 250,
        of: 'p99',
      },
    ],
    async close() {
      socket.close();
      await station.close();
      rmSync(home, { recursive: true, force: true });
    },
  };
}
