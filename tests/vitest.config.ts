/**
 * How the tests are run, in three groups one after the other, two files at a time. Most tests compute and some look at
 * pages: their files share what they import, which halves the work. The rest start programs, end them, or weigh the
 * memory of one, and have a process each.
 */
import { parseArgs } from 'node:util';
import { configDefaults, defineConfig } from 'vitest/config';

const looking = ['tests/browser/**'];
const alone = ['tests/crash/**', 'tests/simulation/**', 'tests/tidy/count.test.ts'];
const filesOf = (places: readonly string[]): string[] =>
  places.map((each) => (each.endsWith('**') ? `${each}/*.test.ts` : each));
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
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          ...within,
          name: 'computing',
          include: all,
          exclude: [...unwanted, ...looking, ...alone],
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          ...within,
          name: 'looking',
          include: filesOf(looking),
          exclude: unwanted,
          isolate: false,
          sequence: { groupOrder: 2 },
        },
      },
      {
        extends: true,
        test: { ...within, name: 'alone', include: filesOf(alone), exclude: unwanted, sequence: { groupOrder: 3 } },
      },
    ],
  },
});
