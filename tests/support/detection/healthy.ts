/** Jobs in which nothing is wrong, of many kinds: thick and thin, slow and fast, even and uneven, cold shops and warm ones. */
import { thermalRun } from './thermal-run.ts';
import { watchRun } from './watched-run.ts';

export interface Healthy {
  readonly runs: number;
  readonly hours: number;
  readonly findings: number;
  /** What was told all the same. */
  readonly told: readonly string[];
}

/** Each heat is used for this many draws of noise. */
const drawsOfOne = 5;

export function healthyRuns(count: number, firstSeed = 5000): Healthy {
  const told: string[] = [];
  let [runs, seconds] = [0, 0];
  for (let job = 0; runs < count; job += 1) {
    const watts = 8000 + (job % 5) * 6000;
    const run = thermalRun({
      seed: firstSeed + job,
      setPointCelsius: 90 + (job % 7) * 25,
      wattsPerSquareMetre: [watts, watts * (1 - (job % 4) * 0.06)],
      thicknessMillimetres: 30 + (job % 6) * 20,
      ambientCelsius: -5 + (job % 8) * 6,
    });
    for (let draw = 0; draw < drawsOfOne && runs < count; draw += 1) {
      const { signs } = watchRun(run, {
        seed: firstSeed + 100 * job + draw,
        form: draw % 3 === 2 ? 'temperature' : 'voltage',
        arcWired: draw % 2 === 0,
      });
      told.push(...signs.map(({ kind, probe, board }) => `${kind} of ${probe ?? board}`));
      seconds += run.length;
      runs += 1;
    }
  }
  return { runs, hours: seconds / 3600, findings: told.length, told };
}
