/** How the tests are run. Real browsers and child processes share two cores with the rest, hence the bounds. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['**/node_modules/**', '.build/**'],
    environment: 'node',
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A test that is marked to run alone hides all others; it must not be committed, and here it fails.
    allowOnly: false,
    restoreMocks: true,
  },
});
