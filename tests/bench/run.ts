/** Runs the benches of this folder, or those whose name holds one of the words given, and prints each row's ratio. */
import { readdirSync } from 'node:fs';
import { Bench } from 'tinybench';
import type { BenchSet, Task } from './bench.ts';

interface Measured {
  readonly name: string;
  readonly perSecond: number;
  readonly medianMilliseconds: number;
  readonly p99Milliseconds: number;
  /** What has been promised, and what was measured of it. */
  readonly limit?: { readonly mostMilliseconds: number; readonly milliseconds: number };
  readonly leastOfBaseline?: number;
}

/** Most measure tasks against a baseline; one that measures a whole station in real time runs and prints itself. */
interface BenchFile {
  readonly prepareBench: () => Promise<BenchSet>;
  /** True if what is promised was kept. */
  readonly runBench?: () => Promise<boolean>;
}

/** Exit status: 0, or 1 where no bench matched, one failed, or a promised limit was not kept. */
export async function runBenches(words: readonly string[]): Promise<number> {
  const files = readdirSync(import.meta.dirname)
    .filter((file) => file.endsWith('.bench.ts') && (words.length === 0 || words.some((word) => file.includes(word))))
    .sort();
  if (files.length === 0) console.log(`No bench matches ${words.join(' ')}.`);
  let good = files.length > 0;
  for (const file of files) {
    const { prepareBench, runBench } = (await import(`./${file}`)) as BenchFile;
    if (runBench !== undefined) {
      good = (await runBench()) && good;
      continue;
    }
    const set = await prepareBench();
    try {
      good = print(set, await measure(set)) && good;
    } finally {
      await set.close?.();
    }
  }
  return good ? 0 : 1;
}

async function measure(set: BenchSet): Promise<Measured[]> {
  const bench = new Bench({
    time: set.milliseconds ?? 1500,
    iterations: 5,
    warmupTime: 300,
    warmupIterations: 2,
    retainSamples: true,
  });
  const tasks = [set.baseline, ...set.rows];
  for (const task of tasks) {
    bench.add(task.name, () => task.run(), task.prepare === undefined ? {} : { beforeEach: () => task.prepare!() });
  }
  await bench.run();
  return tasks.map((task) => measuredOf(task, bench));
}

function measuredOf(task: Task, bench: Bench): Measured {
  const result = bench.getTask(task.name)!.result;
  if (result.state === 'errored') throw result.error;
  if (result.state !== 'completed') throw new Error(`the bench "${task.name}" ended as ${result.state}`);
  const { p50, p99 } = result.latency;
  return {
    name: task.name,
    perSecond: (task.amount * 1000) / p50!,
    medianMilliseconds: p50!,
    p99Milliseconds: p99,
    ...(task.leastOfBaseline === undefined ? {} : { leastOfBaseline: task.leastOfBaseline }),
    ...(task.mostMilliseconds === undefined
      ? {}
      : { limit: { mostMilliseconds: task.mostMilliseconds, milliseconds: task.of === 'p99' ? p99 : p50! } }),
  };
}

function print(set: BenchSet, rows: readonly Measured[]): boolean {
  const baseline = rows[0]!;
  const wide = Math.max(...rows.map(({ name }) => name.length));
  const isKept = ({ limit, leastOfBaseline = 0, perSecond }: Measured): boolean =>
    (limit === undefined || limit.milliseconds <= limit.mostMilliseconds) &&
    perSecond >= leastOfBaseline * baseline.perSecond;
  const keptText = (kept: boolean): string => (kept ? 'kept' : 'NOT KEPT');
  console.log(`\n${set.title}`);
  for (const { text, isKept } of set.facts ?? [])
    console.log(`  ${text}${isKept === undefined ? '' : `: ${keptText(isKept)}`}`);
  console.log(`baseline: ${baseline.name}`);
  for (const row of rows) {
    const ratio = row === baseline ? '1 (baseline)' : `1/${(baseline.perSecond / row.perSecond).toPrecision(3)} of it`;
    const promised = [
      ...(row.limit === undefined ? [] : [`${row.limit.mostMilliseconds} ms`]),
      ...(row.leastOfBaseline === undefined ? [] : [`1/${Math.round(1 / row.leastOfBaseline)} of the baseline`]),
    ];
    const kept = promised.length === 0 ? '' : `  (limit ${promised.join(', ')}: ${keptText(isKept(row))})`;
    console.log(
      `  ${row.name.padEnd(wide)}  ${whole(row.perSecond).padStart(12)} ${set.unit}/s  ${ratio.padEnd(16)}` +
        `  median ${row.medianMilliseconds.toPrecision(3)} ms, 99 % under ${row.p99Milliseconds.toPrecision(3)} ms${kept}`,
    );
  }
  return rows.every(isKept) && (set.facts ?? []).every(({ isKept }) => isKept !== false);
}

const whole = (number: number): string => Math.round(number).toLocaleString('en-US').replaceAll(',', ' ');
