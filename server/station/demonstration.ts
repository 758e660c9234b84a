/**
 * The demonstration: a board in software behind a real pseudo-terminal, heard like any other board. It plays
 * 90 minutes, the check of the probes and the heating, through the same trip on a clock of its own, then goes on in real time; what is
 * entered on the screen (heat, passes) acts on the part that it plays.
 */
import { readFileSync } from 'node:fs';
import type { Board } from '../../firmware-protocol/emulator/board.ts';
import type { Clock } from '../measure/clock.ts';
import { milliseconds } from '../measure/quantity.ts';
import type { Joint } from '../weld/joint.ts';
import { readJoint } from '../weld/read-joint.ts';
import { createInProcessPort } from '../wire/in-process-port.ts';
import type { OpenPort } from '../wire/port.ts';
import { openPseudoTerminal } from '../wire/pseudo-terminal.ts';
import { serialPortOpener } from '../wire/serial-port.ts';
import { demonstrationFaults } from './demonstration-faults.ts';
import { createRound, readOf } from './demonstration-round.ts';
import { createFastClock, type FastClock } from './fast-clock.ts';
import { followActs } from './follow-acts.ts';
import { boardOf } from './joint-board.ts';
import type { Station } from './station.ts';

export interface Demonstration {
  readonly clock: FastClock;
  readonly path: string;
  readonly openPort: OpenPort;
  readonly remark?: string;
  /** Plays the history and goes on in real time; resolves once it is in real time. */
  play(station: Station): Promise<void>;
  close(): void;
}

/** The past is played coarsely, so that it is there within seconds; the present comes each second. */
const historyPeriod = 5000;
const livePeriod = 1000;
const liveStep = 250;
const seed = 20;
/**
 * The plates lie cold for so long at first. So the hold by time has ended when the history ends, and the plate that is
 * measured on one face only comes to the minimum at worst within the next three minutes.
 */
export const history = { minutes: 90, heatAfterMinutes: 34 } as const;

const operator = { name: 'Imke Sorel', role: 'heater operator' } as const;

export async function createDemonstration(jointFile: URL): Promise<Demonstration> {
  const joint = readDemonstrationJoint(jointFile);
  const board = boardOf(joint, historyPeriod, seed, demonstrationFaults(joint, history.heatAfterMinutes));
  const line = await openLine();
  line.onData((bytes) => board.receive(bytes));
  const clock = createFastClock(history.minutes * 60_000);
  let stop = (): void => {};
  let closed = false;

  return {
    clock,
    path: line.path,
    openPort: line.openPort,
    ...(line.remark === undefined ? {} : { remark: line.remark }),
    async play(station) {
      followActs(station.pipeline, joint, board);
      const link = station.links.get(line.path)!;
      let opened: Promise<number> | undefined;
      let heating = false;
      const round = createRound(joint, board);
      while (!closed && clock.lag() > liveStep) {
        // Small steps until the link is in step: it asks for the hello, and gives up on a silent port, on this clock.
        const step = Math.min(opened === undefined ? liveStep : historyPeriod, Math.ceil(clock.lag()));
        // The clock first: what the board says of an instant arrives at that instant.
        clock.move(step);
        const bytes = board.advance(step);
        const expected = link.counts().linesGood + (bytes.match(/\n/g)?.length ?? 0);
        line.write(bytes);
        await heard(() => link.counts().linesGood >= expected, opened === undefined ? 20 : 2000);
        if (opened === undefined && station.pipeline.intake.boards.byId.has(joint.probes[0]!.board)) {
          opened = station.pipeline.open(joint, operator.name);
        }
        const run = station.pipeline.run(joint.id);
        const check = heating || run === undefined ? undefined : round.advance(clock.wall(), readOf(run.assessment));
        if (check !== undefined) void station.pipeline.act(joint.id, { who: operator, act: check });
        if (!heating && opened !== undefined && clock.lag() < (history.minutes - history.heatAfterMinutes) * 60_000) {
          heating = true;
          void station.pipeline.act(joint.id, { who: operator, act: { kind: 'heat', state: 'on' } });
        }
      }
      // Asked to end while the history was played: nobody waits for the rest of it.
      if (closed) return;
      await opened;
      clock.follow();
      station.send(line.path, { kind: 'period', command: 1, periodMilliseconds: livePeriod });
      station.send(line.path, { kind: 'ask hello', command: 2 });
      stop = keepPace(clock, board, line.write);
    },
    close() {
      closed = true;
      stop();
      line.close();
    },
  };
}

export function readDemonstrationJoint(file: URL): Joint {
  const read = readJoint(readFileSync(file, 'utf8'));
  if ('problems' in read) throw new Error(`the demonstration joint is not valid: ${JSON.stringify(read.problems)}`);
  return read.joint;
}

/** The board's time is the clock's, however late a wake-up comes on a busy machine. Returns the function that ends it. */
export function keepPace(clock: Clock, board: Board, write: (bytes: string) => void): () => void {
  let told = clock.wall();
  let cancel = (): void => {};
  const wake = (): void => {
    cancel = clock.after(milliseconds(liveStep), wake);
    const now = clock.wall();
    write(board.advance(now - told));
    told = now;
  };
  wake();
  return () => cancel();
}

interface Line {
  readonly path: string;
  readonly openPort: OpenPort;
  readonly remark?: string;
  write(bytes: string): void;
  onData(hear: (bytes: string) => void): void;
  close(): void;
}

/** A pseudo-terminal, or where the system has none a port inside this process, which the screen then says. */
async function openLine(): Promise<Line> {
  const terminal = await openPseudoTerminal();
  if (terminal !== undefined) {
    return { ...terminal, openPort: serialPortOpener() };
  }
  const port = createInProcessPort();
  return {
    path: 'in-process port',
    openPort: port.openPort,
    remark: 'This system has no pseudo-terminal: the simulated board speaks through a port inside the program.',
    write: port.write,
    onData: port.onData,
    close: () => port.unplug(),
  };
}

/** Lets the bytes arrive. Real time passes here, and only here: they go through the operating system. */
async function heard(done: () => boolean, patienceMilliseconds: number): Promise<void> {
  const until = performance.now() + patienceMilliseconds;
  while (!done() && performance.now() < until) await new Promise((resolve) => setImmediate(resolve));
}
