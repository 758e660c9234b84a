/** The thread in which errands run, one after the other. */
import { parentPort, workerData } from 'node:worker_threads';
import { readProgram } from '../program.ts';
import { sealBeside } from '../record/key-file.ts';
import { openRecordReadOnly } from '../record/read.ts';
import { type Errand, run } from './errand.ts';
import { isKeeping, keep } from './keeping.ts';

const { folder } = workerData as { readonly folder: string };
const reader = openRecordReadOnly(folder);
const program = readProgram();
const done = (errand: Errand): Promise<unknown> | unknown =>
  isKeeping(errand) ? keep(errand, folder, program) : run(errand, reader, program, sealBeside(folder));
let previous: Promise<void> = Promise.resolve();
let isEnding = false;

parentPort?.on('message', (asked: { id: number; errand: Errand } | 'end') => {
  if (asked === 'end') {
    isEnding = true;
    previous = previous.then(() => {
      reader.close();
      process.exit();
    });
    return;
  }
  const { id, errand } = asked;
  previous = previous.then(async () => {
    // Between two errands what was said meanwhile is heard: that it is to end, above all.
    await new Promise((resume) => setImmediate(resume));
    if (isEnding) return;
    try {
      parentPort?.postMessage({ id, outcome: await done(errand) });
    } catch (cause) {
      parentPort?.postMessage({ id, failure: cause instanceof Error ? cause.message : String(cause) });
    }
  });
});
