/**
 * An invented workshop for browser tests: a real station in this process, an emulated board at the end of an
 * in-process cable, a clock that the test moves, and a line to the browser that can be cut.
 *
 * While a test looks at the page the station lives on in small steps, so that its second comes; `play` lets any
 * stretch of the day pass at once. `stand still` stops everything, as a station does that hangs.
 */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, onTestFinished } from 'vitest';
import type { Board } from '../../../firmware-protocol/emulator/board.ts';
import { readProgram } from '../../../server/program.ts';
import { boardOf } from '../../../server/station/joint-board.ts';
import { type Station, startStation } from '../../../server/station/station.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import { createMovedClock } from '../../support/moved-clock.ts';
import { type CutLine, openCutLine } from './cut-line.ts';
import { type BreakableDisk, breakableDisk } from './disk.ts';

export interface Workshop {
  /** What the browser opens: the station behind a line that can be cut. */
  readonly address: string;
  readonly station: Station;
  /** Of the record; what the station knows of people lies beside it. */
  readonly folder: string;
  readonly board: Board;
  readonly line: CutLine;
  readonly disk: BreakableDisk;
  /** So much of the day passes at once, with everything that the board says meanwhile. */
  play(milliseconds: number): Promise<void>;
  standStill(): void;
  goOn(): void;
  /** Sets the station's wall clock forward or back. */
  setClock(milliseconds: number): void;
  now(): number;
}

const build = join(import.meta.dirname, '..', '..', '..', '.build');
export const pages = join(build, 'web');
const errandProgram = pathToFileURL(join(build, 'server', 'server', 'errands', 'worker.js'));
const port = 'cable to the board';
/** A sample each so often: long enough that an hour is soon played, and a probe is old after three of them. */
const period = 5000;
const beat = 500;

/** Ended when the test is. The joint gives the board its channels; it is not entered. `hot`: heated well above its minimum. */
export async function openWorkshop(joint: Joint, { hot = false } = {}): Promise<Workshop> {
  expect(existsSync(join(pages, 'index.html')), 'the pages are built by npm test or npm run build').toBe(true);
  const home = mkdtempSync(join(tmpdir(), 'preheat-browser-'));
  const folder = join(home, 'record');
  const clock = createMovedClock();
  const board = boardOf(joint, period);
  if (hot) {
    board.heater({ on: true, setPointCelsius: 168 });
    // What it says meanwhile nobody hears.
    board.advance(minutes(100));
  }
  const disk = breakableDisk();
  const cable = createInProcessPort();
  cable.onData((bytes) => board.receive(bytes));
  const told: string[] = [];
  const station = await startStation({
    disk,
    folder,
    begin: true,
    ports: [port],
    openPort: cable.openPort,
    clock,
    platform: 'linux',
    httpPort: 0,
    host: '127.0.0.1',
    webFolder: pages,
    errandProgram,
    program: readProgram(),
    tell: (line) => told.push(line),
  });
  const line = await openCutLine(station.address);

  const pass = (milliseconds: number): void => {
    clock.move(milliseconds);
    cable.write(board.advance(milliseconds));
  };
  let beating: NodeJS.Timeout | undefined;
  const goOn = (): void => {
    beating ??= setInterval(() => pass(beat), beat);
  };
  const standStill = (): void => {
    clearInterval(beating);
    beating = undefined;
  };
  const play = async (milliseconds: number): Promise<void> => {
    const wasBeating = beating !== undefined;
    standStill();
    for (let left = milliseconds; left > 0; left -= period) {
      pass(Math.min(left, period));
      await attended();
    }
    if (wasBeating) goOn();
  };

  onTestFinished(async () => {
    standStill();
    await line.close();
    await station.close();
    rmSync(home, { recursive: true, force: true });
    expect(told.filter((each) => each.startsWith('A request failed'))).toEqual([]);
  });
  // The link opens, asks for the hello and has it.
  for (let tries = 0; tries < 40 && station.pipeline.intake.boards.byId.size === 0; tries++) {
    pass(250);
    await attended();
  }
  expect(station.pipeline.intake.boards.byId.size, 'the board is heard').toBe(1);
  goOn();
  return {
    address: line.address,
    station,
    folder,
    board,
    line,
    disk,
    play,
    standStill,
    goOn,
    setClock: clock.step,
    now: clock.wall,
  };
}

/** Whatever waits in this process for its turn, requests of the page among it, has it. */
const attended = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

export const minutes = (count: number): number => count * 60_000;
