/**
 * The first thing that anybody meets, on a machine that we do not know. Runs the real files in a small project of
 * their own, with an npm that does what the test says.
 */
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';

const server = join(import.meta.dirname, '..', '..', 'server');
let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'install-'));
  mkdirSync(join(folder, 'server'));
  for (const file of ['install.mjs', 'build.mjs', 'launch.mjs']) {
    copyFileSync(join(server, file), join(folder, 'server', file));
  }
  lock({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/other-system': { version: '2.0.0', optional: true } });
  npm(`fs.writeFileSync('asked.json', JSON.stringify(process.argv.slice(2)));
    fs.mkdirSync('node_modules/a', { recursive: true });
    fs.writeFileSync('node_modules/.package-lock.json', '{"packages":{"node_modules/a":{"version":"1.0.0"}}}');
    console.log('added 1 package');`);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const lock = (packages: object): void =>
  writeFileSync(join(folder, 'package-lock.json'), JSON.stringify({ packages: { '': {}, ...packages } }));

function npm(body: string): void {
  mkdirSync(join(folder, 'npm'), { recursive: true });
  writeFileSync(join(folder, 'npm', 'npm-cli.js'), `const fs = require('node:fs');\n${body}\n`);
}

function run(args: readonly string[]) {
  const env = { ...process.env, npm_execpath: join(folder, 'npm', 'npm-cli.js') };
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, env, encoding: 'utf8' });
  return { status, stdout, stderr };
}

const install = () => run(['-e', "import('./server/install.mjs').then((it) => it.installIfNeeded())"]);
const asked = (): string[] | undefined =>
  existsSync(join(folder, 'asked.json')) ? JSON.parse(readFileSync(join(folder, 'asked.json'), 'utf8')) : undefined;

test('leaves alone what a link of that name leads to: it belongs to another checkout', () => {
  const elsewhere = mkdtempSync(join(tmpdir(), 'packages-'));
  writeFileSync(join(elsewhere, 'kept'), '');
  symlinkSync(elsewhere, join(folder, 'node_modules'), 'junction');
  npm(`fs.rmSync('node_modules/kept', { force: true });
    fs.mkdirSync('node_modules/a', { recursive: true });
    fs.writeFileSync('node_modules/.package-lock.json', '{"packages":{"node_modules/a":{"version":"1.0.0"}}}');`);
  expect(install().status).toBe(0);
  expect(existsSync(join(elsewhere, 'kept'))).toBe(true);
  rmSync(elsewhere, { recursive: true });
});

test('says who has to do it once where this user may not write, as where a service starts what was brought up to date', () => {
  // A file where the folder should be refuses the super-user too.
  writeFileSync(join(folder, '.build'), '');
  const launched = run([join(folder, 'server', 'launch.mjs'), 'doctor']);
  expect({ status: launched.status, stdout: launched.stdout }).toEqual({ status: 3, stdout: '' });
  expect(launched.stderr).toMatch(/cannot be written[\s\S]*npm run build[\s\S]*start it again/);
  expect(launched.stderr).not.toMatch(/^ +at /m);
});

test('installs by the lock with what tests and builds need, and says nothing on standard output', () => {
  const { status, stdout, stderr } = install();
  expect({ status, stdout }).toEqual({ status: 0, stdout: '' });
  expect(stderr).toContain('added 1 package');
  expect(asked()?.slice(0, 2)).toEqual(['ci', '--include=dev']);
});

test('a second start asks npm nothing', () => {
  install();
  rmSync(join(folder, 'asked.json'));
  expect(install()).toEqual({ status: 0, stdout: '', stderr: '' });
  expect(asked()).toBeUndefined();
});

test('a changed lock is installed anew', () => {
  install();
  rmSync(join(folder, 'asked.json'));
  lock({ 'node_modules/a': { version: '1.1.0' } });
  install();
  expect(asked()).toBeDefined();
});

test('what a person installed by hand is taken as it is, where it is what the lock names', () => {
  install();
  rmSync(join(folder, 'asked.json'));
  rmSync(join(folder, 'node_modules', '.preheat-ledger-stamp'));
  install();
  expect(asked()).toBeUndefined();
  rmSync(join(folder, 'node_modules', 'a'), { recursive: true });
  rmSync(join(folder, 'node_modules', '.preheat-ledger-stamp'));
  install();
  expect(asked()).toBeDefined();
});

test('an installation made for another Node or system is not', () => {
  install();
  rmSync(join(folder, 'asked.json'));
  const stamp = join(folder, 'node_modules', '.preheat-ledger-stamp');
  writeFileSync(stamp, readFileSync(stamp, 'utf8').replace(/node-\d+ .*/, 'node-20 elsewhere-x64'));
  install();
  expect(asked()).toBeDefined();
});

test('a lock left by a process that is gone is taken over', () => {
  mkdirSync(join(folder, '.build'));
  const gone = spawnSync(process.execPath, ['-e', '']).pid;
  writeFileSync(join(folder, '.build', '.install-lock'), String(gone));
  expect(install().status).toBe(0);
  expect(existsSync(join(folder, '.build', '.install-lock'))).toBe(false);
});

describe('a failure says what to do next, with status 3 and nothing on standard output', () => {
  test.each([
    ['npm error code ENOTFOUND', 'needs the network'],
    ['npm error code EACCES', 'cannot be written'],
    ['npm error code EUSAGE', 'disagree'],
    ['npm error code ENOSPC', 'disk is full'],
    ['npm error code SELF_SIGNED_CERT_IN_CHAIN', 'certificate'],
    ['something else', 'The lines above say why'],
  ])('%s', (said, advice) => {
    npm(`console.error('${said}'); process.exit(1);`);
    const { status, stdout, stderr } = run(['server/launch.mjs', 'requirement', 'x.json']);
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' });
    expect(stderr).toContain(said);
    expect(stderr).toContain(advice);
    expect(existsSync(join(folder, 'node_modules', '.preheat-ledger-stamp'))).toBe(false);
  });
});

describe('Node', () => {
  const required = (version: string) =>
    run(['-e', `import('./server/install.mjs').then((it) => it.requireNode('${version}'))`]);
  test.each(['20.19.0', '20.20.2', '22.12.0', '24.1.0'])('%s is taken', (version) => {
    expect(required(version).status).toBe(0);
  });
  test.each(['18.20.4', '20.18.3', '21.7.0', '22.11.0'])('%s is refused in words', (version) => {
    const { status, stderr } = required(version);
    expect(status).not.toBe(0);
    expect(stderr).toContain(`Node ${version} cannot run this; it needs Node 20.19`);
  });
});
