/** The station as a process: comes up, says where, and ends when asked, also while a demonstration plays its history. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..', '..');
const isWindows = process.platform === 'win32';
const subject = `a demonstration as a process${isWindows ? ' (skipped: no signals between processes here)' : ''}`;

describe.skipIf(isWindows)(subject, () => {
  test.each(['SIGINT', 'SIGTERM'] as const)('ends on %s with status 0', { timeout: 60_000 }, async (signal) => {
    const station = spawn(process.execPath, ['server/launch.mjs', 'serve', '--http', '0'], { cwd: root });
    const ended = once(station, 'exit');
    let said = '';
    station.stdout.setEncoding('utf8').on('data', (text: string) => {
      const before = said;
      said += text;
      if (!before.includes('Ctrl+C ends it.') && said.includes('Ctrl+C ends it.')) station.kill(signal);
    });
    const [status] = (await ended) as [number | null];
    const [, folder] = /^Record: +(.+)$/m.exec(said) ?? [];
    if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
    expect(said).toMatch(/^Station: http:\/\/127\.0\.0\.1:\d+\/$/m);
    expect(status).toBe(0);
  });
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
