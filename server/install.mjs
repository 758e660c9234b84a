/**
 * Makes node_modules agree with package-lock.json before anything else of the project is loaded, so that a fresh
 * clone needs no step before `npm start`. Plain JavaScript on Node alone: it runs when nothing is installed yet.
 *
 * Promises: nothing on standard output (that belongs to the command that was asked for); nothing is installed when
 * the stamp of the last installation still fits; a failure says what to do next.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, lstatSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));
const modules = join(root, 'node_modules');
const stampFile = join(modules, '.preheat-ledger-stamp');

/** A failure whose message already says what to do; it is printed without a stack. */
export class LaunchFailure extends Error {}

export const say = (text) => process.stderr.write(`${text}\n`);

export async function installIfNeeded() {
  requireNode(process.versions.node);
  if (isStamped()) return;
  await holdingTheLock('install', async () => {
    if (isStamped()) return;
    if (!holdsTheLockedPackages()) await install();
    writeFileSync(stampFile, stamp());
  });
}

/** Throws where this Node cannot run the project; the range is that of "engines" in package.json. */
export function requireNode(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  if ((major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22) return;
  throw new LaunchFailure(
    `Node ${version} cannot run this; it needs Node 20.19 or a newer 20, or Node 22.12 or newer.\n` +
      'Install one of these (nodejs.org, or your system packages), check with: node --version',
  );
}

/** Runs a program with its output sent to standard error; resolves with its exit status and the end of its output. */
export function run(program, args, options = {}) {
  return new Promise((done) => {
    let tail = '';
    const child = spawn(program, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'], ...options });
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (chunk) => {
        process.stderr.write(chunk);
        tail = (tail + chunk).slice(-16_384);
      });
    }
    child.on('error', (cause) => done({ status: 127, tail: `${tail}\n${cause.message}` }));
    child.on('close', (status) => done({ status: status ?? 1, tail }));
  });
}

/** Whoever runs a service need not own the program; who does has brought it up to date and not built it yet. */
const cannotWrite = (cause) =>
  new LaunchFailure(
    `The program is not installed or not built as it stands, and ${root} cannot be written by this user: ${cause.message}\n` +
      'As the user to whom that folder belongs run there once: npm run build\nThen start it again.',
  );

/** One installation or build at a time in this folder; a lock left by a process that is gone is taken over. */
export async function holdingTheLock(name, work) {
  const lock = join(root, '.build', `.${name}-lock`);
  for (let told = false; ; told = true) {
    try {
      mkdirSync(dirname(lock), { recursive: true });
      writeFileSync(lock, String(process.pid), { flag: 'wx' });
      break;
    } catch (cause) {
      if (cause.code !== 'EEXIST' || cause.path !== lock) throw cannotWrite(cause);
    }
    const holder = Number(readFileOr(lock, '0'));
    if (!isRunning(holder) || isOlderThanAnyStep(lock)) rmSync(lock, { force: true });
    else if (!told) say(`Waiting for process ${holder}, which does the same ${name} step.`);
    await new Promise((resume) => setTimeout(resume, 200));
  }
  const release = () => rmSync(lock, { force: true });
  process.once('exit', release);
  try {
    return await work();
  } finally {
    process.off('exit', release);
    release();
  }
}

async function install() {
  const began = performance.now();
  say('Installing the packages that package-lock.json names; the first time this takes a minute or two.');
  // npm empties what it finds there. A link leads to the packages of another checkout, which need them.
  if (lstatSync(modules, { throwIfNoEntry: false })?.isSymbolicLink()) rmSync(modules);
  const [program, before] = npmProgram();
  const args = [...before, 'ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'];
  const { status, tail } = await run(program, args, { shell: before.length === 0 && process.platform === 'win32' });
  if (status !== 0) throw new LaunchFailure(`npm ci failed (status ${status}).\n${adviceFor(tail)}`);
  say(`Installed in ${((performance.now() - began) / 1000).toFixed(0)} s.`);
}

/** The npm that started us where it did, else the one found by name. */
function npmProgram() {
  const started = process.env.npm_execpath;
  if (started !== undefined && /npm-cli\.(c?js)$/.test(started) && existsSync(started)) {
    return [process.execPath, [started]];
  }
  return ['npm', []];
}

const advice = [
  [
    /EUSAGE|can only install (packages )?when|not in sync/i,
    'package.json and package-lock.json disagree. Restore both from the repository (git checkout package.json package-lock.json), or run npm install after changing package.json.',
  ],
  [/ENOSPC/, 'The disk is full. The packages need about 500 MB; free some space and start again.'],
  [
    /EACCES|EPERM|EROFS/,
    `A file in ${modules} cannot be written. Give this folder to the user who starts the program (do not use sudo npm), or remove node_modules and start again.`,
  ],
  [
    /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ERR_SOCKET|network|E50\d/i,
    'The package registry could not be reached. The first start needs the network; later starts do not. Behind a proxy, set it for npm (npm config set proxy ADDRESS) and start again.',
  ],
  [
    /CERT|SELF_SIGNED|UNABLE_TO_VERIFY/i,
    "The registry's certificate was not accepted. If your network inspects traffic, tell npm its certificate (npm config set cafile FILE) and start again.",
  ],
  [/ENOENT|not found|not recognized|127/i, 'npm was not found. It comes with Node; check with: npm --version'],
];

function adviceFor(output) {
  const found = advice.find(([pattern]) => pattern.test(output));
  return found === undefined ? 'The lines above say why. Mend that, then start again.' : found[1];
}

const isStamped = () => readFileOr(stampFile, '') === stamp();

/** What an installation depends on: the lock, the Node generation and the kind of machine. */
function stamp() {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  return `${lock} node-${process.versions.node.split('.')[0]} ${process.platform}-${process.arch}`;
}

/**
 * Whether npm's own note of what it installed names every locked package at its locked version, so that an
 * installation made by hand is accepted. An older stamp of another machine or Node is not.
 */
function holdsTheLockedPackages() {
  const before = readFileOr(stampFile, '').split(' ').slice(1).join(' ');
  if (before !== '' && before !== stamp().split(' ').slice(1).join(' ')) return false;
  const installed = JSON.parse(readFileOr(join(modules, '.package-lock.json'), '{}')).packages;
  if (installed === undefined) return false;
  const locked = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  return Object.entries(locked).every(([path, { version, optional }]) => {
    if (path === '') return true;
    // A package for another system is locked but rightly absent.
    if (installed[path] === undefined) return optional === true;
    return installed[path].version === version && existsSync(join(root, path));
  });
}

function isRunning(pid) {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    return cause.code === 'EPERM';
  }
}

/** The number of a process that is gone may have been given to another one. */
function isOlderThanAnyStep(lock) {
  try {
    return Date.now() - statSync(lock).mtimeMs > 20 * 60_000;
  } catch {
    return false;
  }
}

function readFileOr(path, otherwise) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return otherwise;
  }
}
