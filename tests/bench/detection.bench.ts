/**
 * The detection table: what faulty probe is told how soon, and how often a sound one is. Made over an emulated job that no
 * number was tuned on, and written beside the detectors (server/suspicion/DETECTION.md). Watching is timed beside it.
 */
import { writeFileSync } from 'node:fs';
import { cases } from '../support/detection/cases.ts';
import { healthyRuns } from '../support/detection/healthy.ts';
import { detectionTable } from '../support/detection/table.ts';
import { tableText } from '../support/detection/table-text.ts';
import { thermalRun } from '../support/detection/thermal-run.ts';
import { watchRun } from '../support/detection/watched-run.ts';
import type { BenchSet } from './bench.ts';

/** None of these was used while the numbers were chosen. */
const seeds = Array.from({ length: 50 }, (_, index) => index + 1);
const runSeed = 7;
const healthyCount = 200;

export async function prepareBench(): Promise<BenchSet> {
  const run = thermalRun({ seed: runSeed });
  const rows = detectionTable(run, seeds, cases);
  const healthy = healthyRuns(healthyCount);
  const file = new URL('../../server/suspicion/DETECTION.md', import.meta.url);
  writeFileSync(file, tableText(rows, healthy));
  const short = rows.filter(({ blind, detected, runs }) => blind === undefined && detected < 0.95 * runs);
  const falsely = rows.filter(({ falselyNamed }) => falselyNamed > 0);
  const weekly = healthy.findings / (healthy.hours / 168);
  console.log(
    `\n${rows.length} rows over ${seeds.length} seeds; short of 95 %: ${short.length}; with a sound probe named: ${falsely.length}`,
  );
  console.log(
    `${healthy.runs} sound runs of ${Math.round(healthy.hours)} h: ${healthy.findings} findings, ${weekly.toFixed(2)} a week`,
  );
  if (short.length > 0 || weekly > 1) process.exitCode = 1;
  const part = run.slice(0, 1800);
  let seen = 0;
  return {
    title: 'Watching eight probes at 1 Hz for faults',
    unit: 'readings',
    baseline: {
      name: 'half an hour, from voltages to signs',
      amount: part.length * 8,
      run: () => {
        seen += watchRun(part, { seed: 1 }).signs.length;
      },
    },
    rows: [],
    close: () => {
      if (seen > 0) throw new Error('a sound probe was named');
    },
  };
}
