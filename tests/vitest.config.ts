/**
 * How the tests are run, in two groups one after the other. Most tests compute: their files share what they import, which
 * halves the work, and two at a time fill two cores. The others mostly wait, for a browser or a program, and have a
 * process each.
 */
import { parseArgs } from 'node:util';
import { configDefaults, defineConfig } from 'vitest/config';

const waiting = ['tests/browser/**', 'tests/crash/**', 'tests/simulation/**', 'tests/tidy/count.test.ts'];
const all = ['tests/**/*.test.ts', 'tests/**/*.test.tsx'];
const unwanted = [...configDefaults.exclude, '.build/**'];
/** `--dir FOLDER` goes to the whole run only, and would not reach the groups. */
const { values } = parseArgs({ options: { dir: { type: 'string' } }, strict: false });
const within = typeof values.dir === 'string' ? { dir: values.dir } : {};

export default defineConfig({
  test: {
    environment: 'node',
    pool: 'forks',
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A test that is marked to run alone hides all others; it must not be committed, and here it fails.
    allowOnly: false,
    restoreMocks: true,
    projects: [
      {
        extends: true,
        test: {
          ...within,
          name: 'computing',
          include: all,
          exclude: [...unwanted, ...waiting],
          isolate: false,
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          ...within,
          name: 'waiting',
          include: waiting.map((each) => (each.endsWith('**') ? `${each}/*.test.ts` : each)),
          exclude: unwanted,
          maxWorkers: 2,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
