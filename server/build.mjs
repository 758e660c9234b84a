/**
 * Builds what the station runs from: the server to .build/server, the pages to .build/web. Each is built anew only
 * when the content of what it is made from has changed, so that a second start loses no time here. Types are not
 * checked here (`npm run types` does that): a start must be quick.
 *
 * Promises: nothing on standard output; a failed build leaves the last good one in place.
 */
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, extname, join, relative } from 'node:path';
import { holdingTheLock, LaunchFailure, root, run, say } from './install.mjs';

const built = join(root, '.build');
/** Files that the server reads beside its code. */
const assetKinds = new Set(['.json', '.typ', '.svg', '.md', '.sql', '.ttf', '.csv', '.txt', '.html', '.css']);

export const mainFile = join(built, 'server', 'server', 'main.js');

const halves = [
  {
    name: 'server',
    from: ['server', 'firmware-protocol', 'package-lock.json', 'tsconfig.json', '.tsconfig.build.json'],
    async make() {
      const next = join(built, 'server.next');
      rmSync(next, { recursive: true, force: true });
      const tsc = join(root, 'node_modules', 'typescript', 'lib', 'tsc.js');
      const { status } = await run(process.execPath, [tsc, '-p', '.tsconfig.build.json', '--outDir', next]);
      if (status !== 0) throw new LaunchFailure('The server could not be built; the lines above say where.');
      for (const file of filesUnder('server').concat(filesUnder('firmware-protocol'))) {
        if (assetKinds.has(extname(file))) copyInto(next, file);
      }
      rmSync(join(built, 'server'), { recursive: true, force: true });
      renameSync(next, join(built, 'server'));
    },
  },
  {
    name: 'web',
    from: ['web', 'server', 'package-lock.json', 'tsconfig.json'],
    async make() {
      const vite = join(root, 'node_modules', 'vite', 'bin', 'vite.js');
      const args = [vite, 'build', '--config', join('web', 'vite.config.ts'), '--logLevel', 'warn'];
      const { status } = await run(process.execPath, args);
      if (status !== 0) throw new LaunchFailure('The pages could not be built; the lines above say where.');
    },
  },
  {
    name: 'proof',
    from: ['web', 'server', 'package-lock.json', 'tsconfig.json'],
    make: () =>
      runNode('server/build-proof.mjs', 'The rules as one script could not be built; the lines above say where.'),
  },
];

/** `wanted` names the halves that are needed now: a calculation on the command line needs no pages. */
export async function buildIfNeeded(wanted = ['server', 'web', 'proof']) {
  const needed = halves.filter((half) => wanted.includes(half.name));
  if (needed.every(isFresh)) return;
  await holdingTheLock('build', async () => {
    const stale = needed.filter((half) => !isFresh(half));
    if (stale.length === 0) return;
    const began = performance.now();
    say(`Building ${stale.map((half) => half.name).join(' and ')}.`);
    const outcomes = await Promise.allSettled(
      stale.map(async (half) => {
        // Taken before the build: a file that changes meanwhile makes it stale again, rather than unseen.
        const stamp = stampOf(half);
        await half.make();
        writeFileSync(stampFile(half), stamp);
      }),
    );
    for (const outcome of outcomes) if (outcome.status === 'rejected') throw outcome.reason;
    say(`Built in ${((performance.now() - began) / 1000).toFixed(1)} s.`);
  });
}

async function runNode(script, failure) {
  const { status } = await run(process.execPath, [join(root, script)]);
  if (status !== 0) throw new LaunchFailure(failure);
}

const stampFile = (half) => join(built, `.${half.name}-stamp`);

function isFresh(half) {
  try {
    return readFileSync(stampFile(half), 'utf8') === stampOf(half) && readdirSync(join(built, half.name)).length > 0;
  } catch {
    return false;
  }
}

function stampOf(half) {
  const hash = createHash('sha256').update(process.versions.node.split('.')[0]);
  for (const from of half.from) {
    for (const file of filesUnder(from)) hash.update(`\0${file}\0`).update(readFileSync(join(root, file)));
  }
  return hash.digest('hex');
}

/** Paths relative to the root, in a fixed order; a file names itself. */
function filesUnder(path) {
  const found = [];
  const visit = (each) => {
    try {
      for (const entry of readdirSync(join(root, each), { withFileTypes: true })) {
        if (entry.isDirectory()) visit(join(each, entry.name));
        else found.push(join(each, entry.name));
      }
    } catch (cause) {
      if (cause.code !== 'ENOTDIR') throw cause;
      found.push(each);
    }
  };
  visit(path);
  return found.sort();
}

function copyInto(folder, file) {
  const target = join(folder, relative('.', file));
  mkdirSync(dirname(target), { recursive: true });
  copyFileSync(join(root, file), target);
}
