/**
 * `npm test`, from nothing: installs, builds, finds a browser, runs every test and ends with one line of counts.
 * Further arguments go to the test runner (`npm test -- tests/rooms/wording`); `--bench` runs the benches instead.
 *
 * Where no browser can be had, the browser tests are counted as skipped and the one command that enables them is
 * printed; with PREHEAT_BROWSER_REQUIRED set that skip is a failure.
 */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildIfNeeded } from '../server/build.mjs';
import { installIfNeeded, LaunchFailure, root, say } from '../server/install.mjs';
import { browserProgram, enablingCommand } from './browser-program.mjs';
import { Count } from './count.mjs';

const args = process.argv.slice(2);
try {
  process.exitCode = args.includes('--bench') ? await bench(args.filter((arg) => arg !== '--bench')) : await test(args);
} catch (cause) {
  if (!(cause instanceof LaunchFailure)) throw cause;
  say(cause.message);
  console.log('0 passed, 1 failed, 0 skipped');
  process.exitCode = 1;
}

async function test(args) {
  process.chdir(root);
  await installIfNeeded();
  const brokenBuild = await buildIfNeeded().catch(reasonOfFailure);
  const browser = await browserProgram();
  if (browser === undefined) delete process.env.PREHEAT_BROWSER;
  else process.env.PREHEAT_BROWSER = browser;

  const count = new Count({ reasonForFile: (file) => reasonToSkip(file, browser) });
  if (brokenBuild !== undefined) count.complain(brokenBuild);
  const { parseCLI, startVitest } = await import('vitest/node');
  const { filter, options } = parseCLI(['vitest', 'run', '--config', 'tests/vitest.config.ts', ...args]);
  const vitest = await startVitest('test', filter, {
    ...options,
    root,
    watch: false,
    reporters: [options.reporters ?? ['default'], count].flat(),
  });
  await vitest.close();
  // The runner sets it for its own findings; ours include what it passes over.
  return conclude(count, browser);
}

/** A broken build is one failure; the tests that need no build still say what they have to say. */
function reasonOfFailure(cause) {
  if (cause instanceof LaunchFailure) return `build: ${cause.message}`;
  throw cause;
}

function conclude(count, browser) {
  for (const complaint of count.complaints) console.log(`failed: ${complaint}`);
  for (const [reason, names] of count.skipped) console.log(`skipped: ${names.length}, because ${reason}`);
  if (count.passed + count.failed + count.skippedCount === 0) console.log('No test was run: nothing matched.');
  if (browser === undefined) console.log(`To run the browser tests: ${enablingCommand()}`);
  const skippedInBrowser = [...count.skipped.values()].flat().some((name) => name.startsWith('tests/browser/'));
  const accepted = !process.env.PREHEAT_BROWSER_REQUIRED || (browser !== undefined && !skippedInBrowser);
  if (!accepted) console.log('Refused: browser tests were skipped, and here they are required.');
  console.log(count.line);
  return count.isGood && accepted ? 0 : 1;
}

/** The two things outside the project that a test may want. */
function reasonToSkip(file, browser) {
  if (browser === undefined && file.startsWith('tests/browser/')) return 'no browser of the Chromium family was found';
  const isAbsent = !existsSync(join(root, '..', 'shared'));
  return isAbsent && wantsShared(join(root, file)) ? 'the shared facts and measurements are absent' : undefined;
}

/** Itself, or through a file of tests/support that it imports. */
function wantsShared(file) {
  const text = readFileSync(file, 'utf8');
  const support = [...text.matchAll(/from '([^']*\/support\/[^']*)'/g)].map(([, path]) => join(dirname(file), path));
  return [text, ...support.map((path) => readFileSync(path, 'utf8'))].some((each) => /\/shared\//.test(each));
}

async function bench(names) {
  process.chdir(root);
  await installIfNeeded();
  await buildIfNeeded(['server']);
  const { register } = await import('tsx/esm/api');
  register();
  const { runBenches } = await import(pathToFileURL(join(root, 'tests', 'bench', 'run.ts')).href);
  return runBenches(names);
}
