/**
 * A station that runs for days must not grow. The judge keeps what it needs to go back half an hour, which is the
 * growth that is allowed here; anything that is kept for each reading for ever would show.
 */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';

test('the heap holds as much after 60 minutes of 16 probes as after 10, within 5 %', { timeout: 240_000 }, async () => {
  const program = join(import.meta.dirname, 'hour-of-station.ts');
  // Without the optimising compiler, whose growing code is not what is looked for.
  const args = ['--expose-gc', '--no-opt', '--import', 'tsx', program];
  const { stdout } = await promisify(execFile)(process.execPath, args);
  const { atTen, atSixty, scans } = JSON.parse(stdout) as { atTen: number; atSixty: number; scans: number };
  expect(scans).toBeGreaterThan(3600);
  expect(atSixty / atTen).toBeLessThan(1.05);
  expect(atSixty / atTen).toBeGreaterThan(0.8);
});
