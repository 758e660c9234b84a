/** The station as a process: comes up, says where, and ends when asked, also while a demonstration plays its history. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..', '..');
const isWindows = process.platform === 'win32';
const subject = `a demonstration as a process${isWindows ? ' (skipped: no signals between processes here)' : ''}`;

describe.skipIf(isWindows)(subject, () => {
  test('goes into a new record only: started again on what it made, that is shown and nothing is read', {
    timeout: 60_000,
  }, async () => {
    const home = mkdtempSync(join(tmpdir(), 'serve-test-'));
    onTestFinished(() => rmSync(home, { recursive: true, force: true }));
    const folder = join(home, 'record');
    expect(await servedUntilUp('--data', folder, '--begin')).toMatchObject({
      status: 0,
      said: expect.stringContaining('Demonstration on a simulated board'),
    });
    const again = await servedUntilUp('--data', folder);
    expect(again).toMatchObject({ status: 0, said: expect.stringMatching(/^No port was named, so nothing is read/m) });
    expect(again.said).not.toContain('Demonstration on a simulated board');
    const shift = await servedUntilUp('--data', folder, '--shift', '--begin');
    expect(shift).toMatchObject({ status: 3, said: expect.stringContaining('--shift begins a new record and') });
  });

  test.each(['SIGINT', 'SIGTERM'] as const)('ends on %s with status 0', { timeout: 60_000 }, async (signal) => {
    const { said, status } = await served(signal);
    const [, folder] = /^Record: +(.+)$/m.exec(said) ?? [];
    if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
    expect(said).toMatch(/^Station: http:\/\/127\.0\.0\.1:\d+\/$/m);
    expect(status).toBe(0);
  });
});

const servedUntilUp = (...args: string[]): ReturnType<typeof served> => served('SIGINT', ...args);

/** Asked to end as soon as it is up. */
async function served(signal: NodeJS.Signals, ...args: string[]): Promise<{ said: string; status: number | null }> {
  const station = spawn(process.execPath, ['server/launch.mjs', 'serve', '--http', '0', ...args], { cwd: root });
  const ended = once(station, 'close');
  let said = '';
  const hear = (text: string): void => {
    const before = said;
    said += text;
    if (!before.includes('Ctrl+C ends it.') && said.includes('Ctrl+C ends it.')) station.kill(signal);
  };
  station.stdout.setEncoding('utf8').on('data', hear);
  station.stderr.setEncoding('utf8').on('data', hear);
  const [status] = (await ended) as [number | null];
  return { said, status };
}

test('an instrument whose file cannot be read: says which, and ends with status 3', { timeout: 60_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), 'serve-test-'));
  mkdirSync(`${folder}.connections`);
  writeFileSync(join(`${folder}.connections`, 'Bay%202.json'), '{');
  const args = ['server/launch.mjs', 'serve', '--http', '0', '--instruments', '--begin', '--data', folder];
  const station = spawn(process.execPath, args, { cwd: root });
  onTestFinished(() => void station.kill('SIGKILL'));
  let said = '';
  station.stderr.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  const [status] = (await once(station, 'exit')) as [number | null];
  expect(said).toMatch(/Bay%202\.json cannot be read: .*Put it right, or move it away/);
  expect(status).toBe(3);
});

describe('an address that is taken', () => {
  test.each([
    ['a demonstration', (): string[] => []],
    [
      'a station on hardware',
      (): string[] => ['--port', 'no-such-port', '--begin', '--data', mkdtempSync(join(tmpdir(), 'serve-test-'))],
    ],
  ])('%s says what to do and ends with status 3', { timeout: 60_000 }, async (_what, further) => {
    const other = createServer().listen(0, '127.0.0.1');
    await once(other, 'listening');
    const { port } = other.address() as AddressInfo;
    const station = spawn(process.execPath, ['server/launch.mjs', 'serve', '--http', String(port), ...further()], {
      cwd: root,
    });
    let said = '';
    station.stderr.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    const [status] = (await once(station, 'exit')) as [number | null];
    other.close();
    expect(said).toMatch(/is in use: another station may be running/);
    expect(status).toBe(3);
  });
});
