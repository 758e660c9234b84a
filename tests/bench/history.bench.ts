/**
 * What a screen asks for when it shows a whole day: 16 probes at one reading a second, from the record to steps of
 * first, lowest, highest and last value. The baseline makes the same steps from readings that are in memory already.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../../server/errands/errand.ts';
import type { ScanItem } from '../../server/ledger/item.ts';
import { type Instant, instant, milliCelsius } from '../../server/measure/quantity.ts';
import { readProgram } from '../../server/program.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { openRecord } from '../../server/record/store.ts';
import { thin } from '../../server/record/thin.ts';
import type { Scan, ScanValue } from '../../server/weld/scan.ts';
import type { BenchSet } from './bench.ts';
import { boardName, channels, probeName, sixteenChannelJoint } from './sixteen-channels.ts';

const seconds = 86_400;
const begins = Date.UTC(2026, 2, 2);
const at = (second: number): Instant => instant(begins + second * 1000);
const points = 1200;

export async function prepareBench(): Promise<BenchSet> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-history-'));
  const { id } = sixteenChannelJoint();
  const scans = Array.from({ length: seconds }, (_, second) => scanAt(second));
  keep(folder, id, scans);
  const reader = openRecordReadOnly(folder);
  const program = readProgram();
  const asked = { probes: channels.map(probeName), from: at(0), to: at(seconds), points, periodMilliseconds: 1000 };
  let steps = 0;
  return {
    title: `History of 24 h x 16 probes at 1 Hz, in ${points} steps`,
    unit: 'values',
    baseline: {
      name: 'the same steps from readings in memory',
      amount: seconds * 16,
      run: () => {
        steps = thin(scans, asked).series[0]!.steps.length;
      },
    },
    rows: [
      {
        name: 'from the record, as text for the page',
        amount: seconds * 16,
        run: async () => {
          const view = await run({ kind: 'history', joint: id, ...asked }, reader, program);
          if (JSON.stringify(view).length < points * 16) throw new Error('the history is not whole');
        },
        mostMilliseconds: 1000,
      },
    ],
    close: () => {
      reader.close();
      rmSync(folder, { recursive: true, force: true });
      if (steps < points - 1) throw new Error(`only ${steps} steps were made`);
    },
  };
}

/** Slow swings with a little unrest, as steel and converters have; the same at every run. */
function scanAt(second: number): Scan {
  const values = channels.map((channel): ScanValue => {
    const unrest = (second * 2_654_435_761 + channel * 40_503) % 97;
    const temperature = milliCelsius(150 + 8 * Math.sin(second / 900 + channel) + unrest / 1000);
    const raw = { form: 'temperature', reported: temperature } as const;
    return { probe: probeName(channel), quality: 'good', temperature, raw };
  });
  return {
    board: boardName,
    boot: 1,
    sequence: second,
    ticks: second * 1000,
    measuredAt: at(second),
    arrivedAt: at(second),
    late: false,
    inputs: 0,
    values,
  };
}

/** In minutes, each sealed, as a station would have left it. */
function keep(folder: string, chain: string, scans: readonly Scan[]): void {
  let now = at(0);
  const store = openRecord({ folder, begin: true, program: 'bench', now: () => now });
  for (let from = 0; from < scans.length; from += 60) {
    store.commit(scans.slice(from, from + 60).map((scan): ScanItem => ({ type: 'scan', chain, scan })));
    now = at(from + 121);
    store.sealDue(now);
  }
  store.close();
}
