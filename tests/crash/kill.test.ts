/**
 * The process is killed (SIGKILL) while it writes, at moments drawn from a seed, again and again on the
 * same record: nothing that it had acknowledged is lost or changed, and every chain still verifies.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { canonicalText } from '../../server/ledger/canonical.ts';
import { sha256Hex } from '../../server/ledger/hash.ts';
import { inspectRecord } from '../../server/record/inspection.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { random } from '../support/random.ts';
import { temporaryFolder } from '../support/record.ts';

const writer = fileURLToPath(new URL('./writer.ts', import.meta.url));
const root = fileURLToPath(new URL('../..', import.meta.url));
const kills = 6;
const seed = 20_260_302;

/** What the writer acknowledged until it was killed, at about the given number of bytes of its output. */
const killed = async (folder: string, round: number, bytes: number): Promise<[number, string][]> => {
  const child = spawn(process.execPath, ['--import', 'tsx', writer, folder, String(round)], { cwd: root });
  let out = '';
  let err = '';
  child.stderr.on('data', (data) => {
    err += String(data);
  });
  child.stdout.on('data', (data) => {
    out += String(data);
    if (out.length >= bytes) child.kill('SIGKILL');
  });
  const [, signal] = await once(child, 'close');
  expect(signal, err).toBe('SIGKILL');
  // A last line without its end was cut by the kill: it was not acknowledged in full.
  const lines = out.split('\n').slice(0, -1);
  return lines.map((line) => {
    const [position = '', digest = ''] = line.split(' ');
    return [Number(position), digest];
  });
};

test(`killed ${kills} times on one record (seed ${seed})`, { timeout: 240_000 }, async () => {
  const folder = join(temporaryFolder(), 'record');
  const draw = random(seed);
  const acknowledged = new Map<number, string>();
  for (let round = 1; round <= kills; round += 1) {
    for (const [position, digest] of await killed(folder, round, 500 + Math.floor(draw() * 40_000))) {
      expect(acknowledged.has(position), `position ${position} given twice`).toBe(false);
      acknowledged.set(position, digest);
    }
    const reader = openRecordReadOnly(folder);
    const found = new Map<number, string>();
    for (let last = 0; ; ) {
      const page = reader.after(last, { limit: 1000 });
      for (const item of page) found.set(item.position, sha256Hex(new TextEncoder().encode(canonicalText(item))));
      if (page.length === 0) break;
      last = page.at(-1)!.position;
    }
    expect([...found.keys()]).toEqual(Array.from({ length: reader.position() }, (_, index) => index + 1));
    for (const [position, digest] of acknowledged) expect(found.get(position), `position ${position}`).toBe(digest);
    reader.close();
    expect(inspectRecord(folder)).toMatchObject({ ok: true });
  }
  expect(acknowledged.size).toBeGreaterThan(100);
});
