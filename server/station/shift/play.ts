/**
 * The shift of an emulated workshop: three jobs at once, each on a board in software, through a station of its own into
 * the record, on a clock that is moved from the past to where the caller wants it. What people enter acts on the steel
 * that the boards play, and on nothing else.
 */
import type { Board } from '../../../firmware-protocol/emulator/board.ts';
import type { Milliseconds } from '../../measure/quantity.ts';
import type { Joint } from '../../weld/joint.ts';
import { createInProcessPort, type InProcessPort } from '../../wire/in-process-port.ts';
import type { OpenPort } from '../../wire/port.ts';
import { readDemonstrationJoint } from '../demonstration.ts';
import type { FastClock } from '../fast-clock.ts';
import { followActs } from '../follow-acts.ts';
import { boardOf } from '../joint-board.ts';
import type { Station } from '../station.ts';
import type { Course, Hands, Job, Until } from './job.ts';

/** A sample each so often while somebody works, and while nothing is waited for but time. */
export const shiftPeriod = 10_000;
const slowPeriod = 60_000;
/** In so long what came in is judged and committed. */
const settling = 200;
/** Until the link is in step: it asks for the hello, and gives up on a silent port, on the same clock. */
const firstStep = 250;

export interface Bay {
  readonly job: Job;
  readonly joint: Joint;
  readonly board: Board;
  readonly path: string;
  readonly cable: InProcessPort;
}

export const baysOf = (jobs: readonly Job[], folder: URL): readonly Bay[] =>
  jobs.map((job, index) => {
    const joint = readDemonstrationJoint(new URL(job.file, folder));
    return {
      job,
      joint,
      board: boardOf(joint, shiftPeriod, 31 + index),
      path: `cable of ${joint.probes[0]!.board}`,
      cable: createInProcessPort(),
    };
  });

/** Opens each bay's own cable, by its path. */
export const openBays =
  (bays: readonly Bay[]): OpenPort =>
  (path, handlers) => {
    const bay = bays.find((each) => each.path === path);
    if (bay === undefined) throw new Error(`no bay has the cable ${path}`);
    return bay.cable.openPort(path, handlers);
  };

type Enter = (joint: string, ...entry: Parameters<Hands['act']>) => void;

interface Worker {
  readonly bay: Bay;
  course?: Course;
  until?: Until;
  since: number;
  over: boolean;
}

/** Plays all jobs to their end. `longest`: a job that is not over by then is a fault of its course, and rejects. */
export async function playShift(
  bays: readonly Bay[],
  station: Station,
  clock: Pick<FastClock, 'wall' | 'move' | 'jump'>,
  longest: Milliseconds,
): Promise<void> {
  const begun = clock.wall();
  for (const bay of bays) {
    bay.cable.onData((bytes) => bay.board.receive(bytes));
    followActs(station.pipeline, bay.joint, bay.board);
  }
  const workers = bays.map((bay): Worker => ({ bay, since: 0, over: false }));
  const refused: unknown[] = [];
  const act: Enter = (joint, who, what) => {
    station.pipeline.act(joint, { who, act: what }).catch((cause) => refused.push(cause));
  };
  let period = shiftPeriod;
  let small = 0;
  while (workers.some(({ over }) => !over)) {
    const inStep = workers.every(({ course }) => course !== undefined);
    const step = inStep && small === 0 ? period : firstStep;
    small = Math.max(0, small - 1);
    // Between two samples nothing happens that somebody has to be woken for each second.
    clock.jump(step - settling);
    for (const { bay, over } of workers) if (!over) bay.cable.write(bay.board.advance(step));
    await attended();
    clock.move(settling);
    await attended();
    for (const worker of workers) if (!worker.over) goOn(worker, station, clock, act);
    if (refused.length > 0) throw new Error('an entry of the shift was refused', { cause: refused[0] });
    if (clock.wall() - begun > longest)
      throw new Error(
        `not over in time: ${workers.flatMap(({ over, bay }) => (over ? [] : [bay.joint.id])).join(', ')}`,
      );
    const wanted = workers.every(({ over, bay }) => over || isWaiting(station, bay)) ? slowPeriod : shiftPeriod;
    if (wanted === period) continue;
    period = wanted;
    for (const { bay } of workers) setPeriod(station, bay, period);
    // Until the boards have answered: the link expects lines as often as the hello says.
    small = 12;
  }
}

function goOn(worker: Worker, station: Station, clock: Pick<FastClock, 'wall'>, act: Enter): void {
  const { joint, board } = worker.bay;
  const { pipeline } = station;
  if (worker.course === undefined) {
    if (!pipeline.intake.boards.byId.has(joint.probes[0]!.board)) return;
    void pipeline.open(joint, 'Tove Arnhart');
    worker.course = worker.bay.job.course({
      joint,
      board,
      now: clock.wall,
      judged: () => pipeline.run(joint.id)!.assessment,
      act: (who, what) => act(joint.id, who, what),
    });
  }
  const run = pipeline.run(joint.id);
  if (run === undefined) return;
  while (worker.until === undefined || worker.until(run.assessment, clock.wall() - worker.since)) {
    const next = worker.course.next();
    worker.since = clock.wall();
    if (next.done === true) {
      worker.over = true;
      // The logger is taken away; a port that nobody speaks on would be complained of.
      void station.links.get(worker.bay.path)?.close();
      return;
    }
    worker.until = next.value;
    // What was done takes effect with the next step.
    return;
  }
}

/** Nothing is done any more but to wait: the boards may speak seldom. */
const isWaiting = ({ pipeline }: Station, { joint }: Bay): boolean =>
  pipeline.run(joint.id)?.assessment.phase === 'waiting';

const setPeriod = (station: Station, { path }: Bay, periodMilliseconds: number): void => {
  station.send(path, { kind: 'period', command: 1, periodMilliseconds });
  station.send(path, { kind: 'ask hello', command: 2 });
};

/** Whatever waits in this process for its turn has it. */
const attended = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
