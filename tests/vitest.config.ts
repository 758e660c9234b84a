/**
 * How the tests are run, in three groups one after the other, two files at a time. Most tests compute and some look at
 * pages: their files share what they import, which halves the work. The rest start programs, end them, or weigh the
 * memory of one, and have a process each.
 */
import { parseArgs } from 'node:util';
import { configDefaults, defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const looking = ['tests/browser/**'];
const alone = ['tests/crash/**', 'tests/simulation/**', 'tests/tidy/count.test.ts'];
const filesOf = (places: readonly string[]): string[] =>
  places.map((each) => (each.endsWith('**') ? `${each}/*.test.ts` : each));
const all = ['tests/**/*.test.ts', 'tests/**/*.test.tsx'];
const unwanted = [...configDefaults.exclude, '.build/**'];
/** `--dir FOLDER` goes to the whole run only, and would not reach the groups. */
const { values } = parseArgs({ options: { dir: { type: 'string' } }, strict: false });
const within = typeof values.dir === 'string' ? { dir: values.dir } : {};

/** Begun first in their group, or one of them runs on while nobody has anything left to do beside it. */
const longest = [
  'shift',
  'heap',
  'whole-job',
  'passes',
  'trust',
  'blindness',
  'sound',
  'break-and-repair',
  'scenarios',
];
const isLong = ({ moduleId }: TestSpecification): boolean =>
  longest.some((name) => moduleId.endsWith(`/${name}.test.ts`));

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

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
    sequence: { sequencer: LongestFirst },
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
