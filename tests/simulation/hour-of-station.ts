/**
 * A whole station that hears sixteen probes for an hour of its own time, run as a program by heap.test.ts: prints what
 * its heap holds after a forced collection at 10 and at 60 minutes, in bytes.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readProgram } from '../../server/program.ts';
import { createFastClock } from '../../server/station/fast-clock.ts';
import { startStation } from '../../server/station/station.ts';
import { createInProcessPort } from '../../server/wire/in-process-port.ts';
import { boardName, sixteenChannelBoard, sixteenChannelJoint } from '../bench/sixteen-channels.ts';

const periodMilliseconds = 1000;
const home = mkdtempSync(join(tmpdir(), 'hour-'));
const folder = join(home, 'record');
const clock = createFastClock(24 * 3_600_000);
const board = sixteenChannelBoard(periodMilliseconds);
const cable = createInProcessPort();
cable.onData((bytes) => board.receive(bytes));
const station = await startStation({
  folder,
  begin: true,
  ports: ['cable'],
  openPort: cable.openPort,
  clock,
  platform: process.platform,
  httpPort: 0,
  host: '127.0.0.1',
  webFolder: folder,
  program: readProgram(),
  tell: () => {},
});
const link = station.links.get('cable')!;

async function play(milliseconds: number): Promise<void> {
  clock.move(milliseconds);
  const bytes = board.advance(milliseconds);
  const expected = link.counts().linesGood + (bytes.match(/\n/g)?.length ?? 0);
  cable.write(bytes);
  for (let turns = 0; link.counts().linesGood < expected && turns < 20; turns += 1) {
    await new Promise((resume) => setImmediate(resume));
  }
}

async function playUntil(minute: number): Promise<number> {
  while (clock.monotonic() - began < minute * 60_000) await play(periodMilliseconds);
  for (let times = 0; times < 3; times += 1) globalThis.gc!();
  return process.memoryUsage().heapUsed;
}

const isHeard = (): boolean => station.pipeline.intake.boards.byId.has(boardName);
for (let tries = 0; !isHeard() && tries < 200; tries += 1) await play(100);
const opening = station.pipeline.open(sixteenChannelJoint(), 'Runa Teld');
await play(periodMilliseconds);
await opening;

const began = clock.monotonic();
const atTen = await playUntil(10);
const atSixty = await playUntil(60);
const scans = station.pipeline.run(sixteenChannelJoint().id)!.position;
await station.close();
rmSync(home, { recursive: true, force: true });
process.stdout.write(JSON.stringify({ atTen, atSixty, scans }));
