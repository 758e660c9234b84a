/**
 * The shift of an emulated workshop: three jobs at once, each on a board in software, through a station of its own into
 * the record, on a clock that is moved from the past to where the caller wants it. What people enter acts on the steel
 * that the boards play, and on nothing else.
 */
import { dutyProblems } from '../../desk/duty.ts';
import { type Milliseconds, milliseconds } from '../../measure/quantity.ts';
import { namedActSchema } from '../../weld/entry.ts';
import type { Person } from '../../weld/person.ts';
import { signedBy } from '../../weld/signed.ts';
import type { FastClock } from '../fast-clock.ts';
import { followActs } from '../follow-acts.ts';
import type { Station } from '../station.ts';
import { type Bay, boundTo } from './bay.ts';
import { type Crew, people } from './crew.ts';
import type { Course, Hands, Until } from './job.ts';

/** A sample each so often while somebody works, and while nothing is waited for but time. */
export const shiftPeriod = milliseconds(10_000);
const slowPeriod = milliseconds(60_000);
/** In so long what came in is judged and committed. */
const settling = 200;
/** Until the link is in step: it asks for the hello, and gives up on a silent port, on the same clock. */
const firstStep = 250;

/** Where it is played. */
export interface Stage {
  readonly station: Station;
  readonly clock: Pick<FastClock, 'wall' | 'move' | 'jump'>;
  readonly crew: Crew;
}

interface Worker {
  readonly bay: Bay;
  course?: Course;
  until?: Until;
  since: number;
  over: boolean;
  /** What an entry was refused with. */
  refused?: unknown;
}

/** Plays all jobs to their end. `longest`: a job that is not over by then is a fault of its course, and rejects. */
export async function playShift(bays: readonly Bay[], stage: Stage, longest: Milliseconds): Promise<void> {
  const { station, clock } = stage;
  const begun = clock.wall();
  for (const bay of bays) {
    bay.cable.onData((bytes) => bay.board.receive(bytes));
    followActs(station.pipeline, bay.joint, bay.board);
  }
  const workers = bays.map((bay): Worker => ({ bay, since: 0, over: false }));
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
    for (const worker of workers) if (!worker.over) goOn(worker, stage);
    const refused = workers.find((worker) => worker.refused !== undefined)?.refused;
    if (refused !== undefined) throw new Error('an entry of the shift was refused', { cause: refused });
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

function goOn(worker: Worker, stage: Stage): void {
  const { joint, path } = worker.bay;
  const { pipeline, links } = stage.station;
  if (worker.course === undefined) {
    if (!pipeline.intake.boards.byId.has(joint.probes[0]!.board)) return;
    worker.course = worker.bay.job.course(openJob(worker, stage));
  }
  const run = pipeline.run(joint.id);
  if (run === undefined) return;
  while (worker.until === undefined || worker.until(run.assessment, stage.clock.wall() - worker.since)) {
    const next = worker.course.next();
    worker.since = stage.clock.wall();
    if (next.done === true) {
      worker.over = true;
      // The logger is taken away; a port that nobody speaks on would be complained of.
      void links.get(path)?.close();
      return;
    }
    worker.until = next.value;
    // What was done takes effect with the next step.
    return;
  }
}

/** The coordinator records the procedure and enters the joint by it. */
function openJob(worker: Worker, { station: { pipeline }, clock, crew }: Stage): Hands {
  const { joint, board, revisions } = worker.bay;
  const [first, ...later] = revisions;
  const signed = (who: Person) => signedBy(who, crew.established(who));
  const asked = (entry: Promise<unknown>): void => {
    entry.catch((cause: unknown) => {
      worker.refused = cause;
    });
  };
  const recordRevision = (entry: typeof first): void =>
    asked(pipeline.procedure({ kind: 'procedure', ...entry! }, signed(people.coordinator)));
  const joined = () => pipeline.run(joint.id)?.joint ?? joint;
  const act: Hands['act'] = (who, what) => {
    const against = dutyProblems(what.kind, who);
    if (against.length > 0) throw new Error(`${who.name} may not enter that`, { cause: against });
    const named = namedActSchema.parse({ who, act: crew.entered(what) });
    asked(pipeline.act(joint.id, { ...named, established: crew.established(who) }));
  };
  recordRevision(first);
  asked(pipeline.open(joint, signed(people.coordinator)));
  return {
    board,
    now: clock.wall,
    joint: joined,
    judged: () => pipeline.run(joint.id)!.assessment,
    act,
    handOver(from, to, note) {
      const { person, proof } = crew.established(to);
      const both = { to: to.name, ...(person && { toPerson: person }), ...(proof && { toProof: proof }) };
      act(from, { kind: 'hand-over', ...both, note });
    },
    changeOver(who, reason) {
      const next = later.shift();
      recordRevision(next);
      act(who, { kind: 'revise', joint: boundTo(joined(), next!.revision), reason });
    },
  };
}

/** Nothing is done any more but to wait: the boards may speak seldom. */
const isWaiting = ({ pipeline }: Station, { joint }: Bay): boolean => {
  const phase = pipeline.run(joint.id)?.assessment.phase;
  return phase === 'waiting' || phase === 'cooling';
};

const setPeriod = (station: Station, { path }: Bay, periodMilliseconds: number): void => {
  station.send(path, { kind: 'period', command: 1, periodMilliseconds });
  station.send(path, { kind: 'ask hello', command: 2 });
};

/** Whatever waits in this process for its turn has it. */
const attended = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
