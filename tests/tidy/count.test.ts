/**
 * The last line of `npm test` is what people and machines go by, so it is held here: what did not run must not pass
 * for a success. Runs the launcher, as a person would, over a folder of test files that each go wrong in one way.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..');
// Inside the project, so that the files find its packages.
const base = join(root, '.build', 'count-tests');
let folder: string;

afterEach(() => rmSync(folder, { recursive: true, force: true }));

const from = `import { beforeAll, describe, expect, test } from 'vitest';\n`;
const good = `${from}test('holds', () => expect(1).toBe(1));\n`;

function launch(files: Record<string, string>, ...args: string[]) {
  mkdirSync(join(base), { recursive: true });
  folder = mkdtempSync(join(base, 'case-'));
  mkdirSync(join(folder, 'tests'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, 'tests', `${name}.test.ts`), text);
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !name.startsWith('VITEST')));
  const { stdout, status } = spawnSync(process.execPath, ['tests/launch.mjs', '--dir', folder, ...args], {
    cwd: root,
    env: { ...env, NODE_ENV: '', TEST: '' },
    encoding: 'utf8',
  });
  // A build that is broken just now is counted by the run that this test belongs to.
  const broken = stdout.includes('failed: build: ') ? 1 : 0;
  const [, passed, failed, skipped] = /^(\d+) passed, (\d+) failed, (\d+) skipped$/.exec(
    stdout.trim().split('\n').at(-1)!,
  )!;
  return { passed: Number(passed), failed: Number(failed) - broken, skipped: Number(skipped), status, stdout, broken };
}

test('tests that pass are counted; a skip with a reason, given when it skips or in its name, is accepted', () => {
  const run = launch({
    good: `${good}test('noted', (context) => context.skip('the tide is out'));\n`,
    named: `${good}describe.skip('far (skipped: too far)', () => { test('a', () => {}); test('b', () => {}); });\n`,
  });
  expect(run).toMatchObject({ passed: 2, failed: 0, skipped: 3, status: run.broken });
  expect(run.stdout).toContain('skipped: 1, because the tide is out');
  expect(run.stdout).toContain('skipped: 2, because too far');
});

/** Each with what it adds to the failures beside its own good test. */
const wrong = {
  unloadable: `import './absent.ts';\n${good}`,
  empty: 'export {};\n',
  setup: `${from}describe('group', () => {
    beforeAll(() => { throw new Error('no'); });
    test('a', () => {});
    test('b', () => {});
  });\n`,
  bare: `${from}test.skip('bare', () => {});\n`,
  alone: `${from}test.${'only'}('alone', () => {});\ntest('hidden', () => {});\n`,
  stray: `${from}test('looks well', async () => {
    Promise.reject(new Error('nobody waits for this'));
    await new Promise((resume) => setImmediate(() => setImmediate(resume)));
  });\n`,
};

test('what did not run as it should counts as failed, each kind of it', () => {
  const run = launch({ good, ...wrong });
  for (const complaint of [
    'unloadable.test.ts: Cannot find module',
    'empty.test.ts: No test suite found',
    'group: no',
    'bare: skipped without a reason',
    'hidden: skipped without a reason',
    'outside every test: nobody waits for this',
  ]) {
    expect(run.stdout).toContain(complaint);
  }
  // The six above and "alone", which the runner itself refuses; "good" and "looks well" hold.
  expect(run).toMatchObject({ passed: 2, failed: 7, skipped: 0, status: 1 });
});

test('a pattern that matches no test is a failure', () => {
  expect(launch({ good }, 'no-such-file')).toMatchObject({ passed: 0, failed: 0, skipped: 0, status: 1 });
});
