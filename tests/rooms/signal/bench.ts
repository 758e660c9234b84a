/** A station that drives the outputs of an emulated board, on a clock that the test moves; every command to the board is kept. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import type { HostFrame } from '../../../firmware-protocol/codec/frame.ts';
import { readProgram } from '../../../server/program.ts';
import { boardOf } from '../../../server/station/joint-board.ts';
import { startStation } from '../../../server/station/station.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import { breakableDisk } from '../../browser/support/disk.ts';
import { simulatedJoint } from '../../simulation/job.ts';
import { createMovedClock } from '../../support/moved-clock.ts';

/** A thin plate that is ready as soon as it is read, so that minutes are enough. */
const easyJoint = (highestCelsius: number): Joint => ({
  ...simulatedJoint,
  id: 'easy',
  procedure: { ...simulatedJoint.procedure!, preheatMinimumCelsius: 10, highestCelsius },
});

export async function openBench({ period = 1000, signals = true, highestCelsius = 200 } = {}) {
  const joint = easyJoint(highestCelsius);
  const home = mkdtempSync(join(tmpdir(), 'preheat-signal-'));
  const folder = join(home, 'record');
  const clock = createMovedClock();
  const board = boardOf(joint, period);
  const disk = breakableDisk();
  const cable = createInProcessPort();
  const commands: HostFrame[] = [];
  let deaf = false;
  cable.onData((bytes) => {
    for (const line of bytes.split('\n')) {
      const decoded = decode(line);
      if (decoded.ok) commands.push(decoded.frame as HostFrame);
    }
    if (!deaf) board.receive(bytes);
  });
  const station = await startStation({
    disk,
    folder,
    begin: true,
    ports: ['cable'],
    openPort: cable.openPort,
    clock,
    platform: 'linux',
    httpPort: 0,
    host: '127.0.0.1',
    webFolder: folder,
    program: readProgram(),
    signals,
    tell: () => {},
  });
  onTestFinished(async () => {
    await station.close();
    rmSync(home, { recursive: true, force: true });
  });
  const seconds = async (count: number): Promise<void> => {
    for (let left = count * 4; left > 0; left -= 1) {
      clock.move(250);
      cable.write(board.advance(250));
      await new Promise((resume) => setImmediate(resume));
    }
  };
  await seconds(3);
  return {
    station,
    board,
    disk,
    signals: station.signals,
    seconds,
    /** The board's own time goes on while the station does not: it hangs, or the line to the board is cut. */
    boardAlone: (milliseconds: number) => void board.advance(milliseconds),
    setDeaf: (now: boolean) => {
      deaf = now;
    },
    /** Opens the joint; a person accepts that the procedure asks for less than is computed. */
    async enter(): Promise<void> {
      const { pipeline } = station;
      const opened = pipeline.open(joint, 'Ada');
      await seconds(1);
      await opened;
      const accept = { kind: 'accept', subject: 'procedure below calculation', reason: 'for this test' } as const;
      const accepted = pipeline.act(joint.id, { who: { name: 'Ada' }, act: accept });
      await seconds(1);
      await accepted;
    },
    /** Commands since the last asking. */
    heard: (): HostFrame[] => commands.splice(0),
  };
}
