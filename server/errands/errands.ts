/** Sends errands to threads beside the trip: one for what a screen waits for, one for paper, one that knows all past joints, one that looks at the record as a whole. */
import { Worker } from 'node:worker_threads';
import type { Errand, Outcome } from './errand.ts';
import { isKeeping } from './keeping.ts';

export interface Errands {
  /** Rejects with the cause in words. */
  run<E extends Errand>(errand: E): Promise<Outcome<E>>;
  close(): Promise<void>;
}

/** A day of readings makes many short-lived values: with more room for them they are cleared away a few times and not thousands. */
const maxYoungGenerationSizeMb = 64;

/** `program`: of the threads, if not the one that stands beside this file. */
export function createErrands(folder: string, program = besideThis()): Errands {
  const quick = createThread(folder, program);
  const paper = createThread(folder, program);
  const past = createThread(folder, program);
  const keeping = createThread(folder, program);
  return {
    run: (errand) =>
      (isKeeping(errand) ? keeping : ofPast.has(errand.kind) ? past : slow.has(errand.kind) ? paper : quick).run(
        errand,
      ),
    close: async () => {
      await Promise.all([quick.close(), paper.close(), past.close(), keeping.close()]);
    },
  };
}

const besideThis = (): URL =>
  new URL(import.meta.url.endsWith('.ts') ? './from-source.mjs' : './worker.js', import.meta.url);

/** What nobody looks at while it is made. */
const slow: ReadonlySet<Errand['kind']> = new Set<Errand['kind']>([
  'pdf',
  'csv',
  'package',
  'look at package',
  'logs',
  'report of logs',
  'keep logs',
  'fold anew',
  'suppose',
]);

/** By the thread that holds the cards of all joints in memory. */
const ofPast: ReadonlySet<Errand['kind']> = new Set<Errand['kind']>([
  'find',
  'found as CSV',
  'statistics',
  'statistics as CSV',
  'cards to keep',
]);

interface Waiting {
  readonly done: (outcome: never) => void;
  readonly failed: (cause: Error) => void;
}

/** Started at the first errand; if it dies, whoever waits is told and the next errand starts a new one. */
function createThread(folder: string, program: URL): Errands {
  let worker: Worker | undefined;
  let isClosed = false;
  let next = 0;
  const waiting = new Map<number, Waiting>();

  const start = (): Worker => {
    const made = new Worker(program, { workerData: { folder }, resourceLimits: { maxYoungGenerationSizeMb } });
    made.on('message', ({ id, outcome, failure }: { id: number; outcome: never; failure?: string }) => {
      const one = waiting.get(id);
      waiting.delete(id);
      if (failure === undefined) one?.done(outcome);
      else one?.failed(new Error(failure));
    });
    const end = (cause: string): void => {
      if (worker === made) worker = undefined;
      for (const one of waiting.values()) one.failed(new Error(cause));
      waiting.clear();
    };
    made.on('error', (cause) => end(cause instanceof Error ? cause.message : String(cause)));
    made.on('exit', () => end('the errand was broken off'));
    return made;
  };

  return {
    run: (errand) =>
      new Promise((done, failed) => {
        if (isClosed) return failed(new Error('the station is closing'));
        worker ??= start();
        const id = next++;
        waiting.set(id, { done, failed });
        worker.postMessage({ id, errand });
      }),
    /** The errand that runs is let end: a thread that is stopped inside the database takes the whole program with it. */
    async close() {
      isClosed = true;
      const ending = worker;
      if (ending === undefined) return;
      await new Promise<void>((ended) => {
        ending.once('exit', () => ended());
        ending.postMessage('end');
      });
    },
  };
}
