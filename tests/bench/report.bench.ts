/**
 * The report of a job of twelve hours with sixteen probes at one reading a second, made in its thread as a station makes it:
 * the record read, the job judged anew, set and written as PDF. Beside it a second of the trip, alone and while reports are
 * made one after the other: what is shown to welders must not wait for paper.
 */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createErrands } from '../../server/errands/errands.ts';
import { openRecord } from '../../server/record/store.ts';
import { createFastClock } from '../../server/station/fast-clock.ts';
import { hardWords, keepLongJob, longJobId } from '../support/long-job.ts';
import type { BenchSet } from './bench.ts';
import { startTrip } from './sixteen-trip.ts';

const linesPerSecond = 10;
const someYearsAgo = 1000 * 24 * 3_600_000;
/** As it is installed; from the source everything takes longer. */
const built = new URL('../../.build/server/server/errands/worker.js', import.meta.url);

export async function prepareBench(): Promise<BenchSet> {
  const home = mkdtempSync(join(tmpdir(), 'bench-report-'));
  const folder = join(home, 'long');
  keepLongJob({ folder, words: hardWords });
  const errands = createErrands(folder, existsSync(built) ? built : undefined);
  const clock = createFastClock(someYearsAgo);
  const record = openRecord({ folder: join(home, 'trip'), begin: true, program: 'bench', now: () => clock.wall() });
  const trip = await startTrip(clock, record);
  let pages = 0;
  const report = async (): Promise<void> => {
    const pdf = await errands.run({ kind: 'pdf', joint: longJobId, zone: 'Europe/Oslo' });
    pages += Buffer.from(pdf).toString('latin1').startsWith('%PDF') ? 1 : 0;
  };
  let pieces: string[] = [];
  const second = {
    amount: linesPerSecond,
    run: async () => {
      for (const piece of pieces) await trip.play(piece);
    },
  };
  let making: Promise<void> | undefined;
  return {
    title: 'Report of 12 h x 16 probes at 1 Hz, and the trip beside it',
    unit: 'lines or reports',
    baseline: {
      ...second,
      name: 'a second of the trip, alone',
      prepare: () => {
        pieces = trip.next(linesPerSecond);
      },
    },
    rows: [
      {
        ...second,
        name: 'a second of the trip while a report is made',
        prepare: () => {
          pieces = trip.next(linesPerSecond);
          making ??= report().finally(() => {
            making = undefined;
          });
        },
        // A welder's screen is a quarter of a second behind at most.
        mostMilliseconds: 250,
        of: 'p99',
      },
      {
        name: 'the report',
        amount: 1,
        prepare: () => making,
        run: report,
        mostMilliseconds: 5000,
      },
    ],
    async close() {
      await errands.close();
      await trip.close();
      record.close();
      rmSync(home, { recursive: true, force: true });
      if (pages === 0) throw new Error('no report was made');
    },
  };
}
