/** The thread in which errands run, one after the other. */
import { parentPort, workerData } from 'node:worker_threads';
import { readProgram } from '../program.ts';
import { sealBeside } from '../record/key-file.ts';
import { openRecordReadOnly } from '../record/read.ts';
import { type Errand, run } from './errand.ts';

const { folder } = workerData as { readonly folder: string };
const reader = openRecordReadOnly(folder);
const program = readProgram();
let previous: Promise<void> = Promise.resolve();

parentPort?.on('message', ({ id, errand }: { id: number; errand: Errand }) => {
  previous = previous.then(async () => {
    try {
      parentPort?.postMessage({ id, outcome: await run(errand, reader, program, sealBeside(folder)) });
    } catch (cause) {
      parentPort?.postMessage({ id, failure: cause instanceof Error ? cause.message : String(cause) });
    }
  });
});
