/** Copies of a record: taken while it is written, broken off at every step, put back; nothing is laid over and nothing is lost. */
import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { backup } from '../../server/commands/backup.ts';
import { restore } from '../../server/commands/restore.ts';
import { createKeyPem, signerOfPem } from '../../server/record/ed25519.ts';
import { inspectRecord } from '../../server/record/inspection.ts';
import { connectionFilesIn, connectionsFolderOf, waitingFolderOf } from '../../server/record/instrument-files.ts';
import { headsIn, keepCopy } from '../../server/record/keep-copy.ts';
import { putBack } from '../../server/record/put-back.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { sqliteDisk } from '../../server/record/sqlite.ts';
import { openRecord } from '../../server/record/store.ts';
import { keptConnections } from '../../server/station/kept-connections.ts';
import { faults, faultyDisk } from '../support/faulty-disk.ts';
import { at, bench, note, scanItem, shortJob, temporaryFolder } from '../support/record.ts';
import { closedRecord, tamper } from '../support/tampered-record.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const signer = signerOfPem(createKeyPem());
const headsOf = (folder: string) => {
  const database = sqliteDisk.open(join(folder, 'record.sqlite'), 'read');
  try {
    return headsIn(database);
  } finally {
    database.close();
  }
};
const copyOf = (folder: string, name = 'copy'): string => {
  const to = join(dirname(folder), name);
  keepCopy({ from: folder, to, at: 'today' });
  return to;
};
const refusal = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  return 'nothing was refused';
};
const ran = async (command: typeof backup, ...args: string[]) => {
  const told: string[] = [];
  const status = await command.run(args, { out: (text) => told.push(text), err: (text) => told.push(text) });
  return { status, told: told.join('\n') };
};

test('taken while a station writes without a pause: each copy is intact and what the record then was', {
  timeout: 120_000,
}, async () => {
  const home = temporaryFolder();
  const folder = join(home, 'record');
  const writer = fileURLToPath(new URL('./writer.ts', import.meta.url));
  const child = spawn(process.execPath, ['--import', 'tsx', writer, folder, '1'], { cwd: root });
  for (let heard = 0; heard < 20_000; ) heard += String((await once(child.stdout, 'data'))[0]).length;
  child.stdout.resume();
  const kept = [1, 2].map((n) => keepCopy({ from: folder, to: join(home, `copy-${n}`), at: 'now' }));
  child.kill('SIGKILL');
  await once(child, 'close');
  const reader = openRecordReadOnly(folder);
  const hashes = new Set(reader.chains().flatMap(({ chain }) => [...reader.stored(chain)].map(({ hash }) => hash)));
  reader.close();
  for (const { folder: copy, heads } of kept) {
    expect(inspectRecord(copy).ok).toBe(true);
    expect(heads.length).toBeGreaterThan(1);
    for (const { hash } of heads) expect(hashes.has(hash)).toBe(true);
  }
});

test('what waits to be sealed is in the copy; no key and no lock is', () => {
  const bed = bench(undefined, () => signer);
  bed.store.commit([...shortJob().slice(0, 3), scanItem(4)]);
  const copy = copyOf(bed.folder);
  expect(readdirSync(copy).sort()).toEqual(['COPY.txt', 'record.sqlite']);
  expect(readFileSync(join(copy, 'COPY.txt'), 'utf8')).toContain("The station's private key is not in it");
  const reader = openRecordReadOnly(copy);
  expect(reader.after(0, { limit: 100 })).toEqual(bed.store.after(0, { limit: 100 }));
  reader.close();
});

test('instruments that were set up go along, and wait on another machine; those that a station has are left as they are', async () => {
  const folder = closedRecord(false, signer);
  const home = dirname(folder);
  const lay = (of: string, name: string, text: string): void => {
    mkdirSync(of, { recursive: true });
    writeFileSync(join(of, `${name}.json`), text);
  };
  lay(connectionsFolderOf(folder), 'Bay%202', 'bay');
  lay(connectionsFolderOf(folder), 'Meter', 'meter');
  lay(waitingFolderOf(folder), 'Meter', 'meter of before');
  lay(waitingFolderOf(folder), 'Furnace', 'furnace');
  writeFileSync(join(connectionsFolderOf(folder), 'half.json.part'), '{');
  const copy = join(home, 'copy');
  expect((await ran(backup, folder, copy)).told).toContain('Instruments that go along: Bay 2, Furnace, Meter.');
  expect(readFileSync(join(copy, 'COPY.txt'), 'utf8')).toContain(
    '(folder connections): Bay 2, Furnace, Meter. Put back',
  );

  const textsIn = (of: string) =>
    Object.fromEntries(connectionFilesIn(of).map((name) => [name, readFileSync(join(of, name), 'utf8')]));
  const all = { 'Bay%202.json': 'bay', 'Furnace.json': 'furnace', 'Meter.json': 'meter' };
  const elsewhere = join(home, 'elsewhere');
  const { told } = await ran(restore, copy, elsewhere);
  expect(told).toContain('Instruments that wait, and are not read: Bay 2, Furnace, Meter.');
  expect(textsIn(waitingFolderOf(elsewhere))).toEqual(all);
  expect(keptConnections(elsewhere), 'none is read').toEqual([]);

  // Where the copy was taken: what is read is read as before, what is read otherwise stands beside it.
  lay(connectionsFolderOf(folder), 'Meter', 'meter as it is now');
  expect(putBack({ copy, record: folder, stamp: '1' }).instruments).toEqual(['Furnace', 'Meter']);
  expect(textsIn(connectionsFolderOf(folder))).toEqual({ 'Bay%202.json': 'bay', 'Meter.json': 'meter as it is now' });
  expect(textsIn(waitingFolderOf(folder))).toEqual({ 'Furnace.json': 'furnace', 'Meter.json': 'meter' });
});

describe('refused with what to do, and nothing is touched', () => {
  test('a copy over something, into a place that is not there, into the record, of a record that is not intact', async () => {
    const folder = closedRecord(false, signer);
    const home = dirname(folder);
    const copy = copyOf(folder);
    const before = readFileSync(join(copy, 'record.sqlite'));
    const asked = (to: string) => ran(backup, folder, to);
    expect(await asked(copy)).toMatchObject({ status: 3, told: expect.stringContaining('never laid over anything') });
    expect(readFileSync(join(copy, 'record.sqlite')).equals(before)).toBe(true);
    expect((await asked(join(home, 'stick', 'copy'))).told).toContain('plug it in');
    expect((await asked(join(folder, 'copy'))).told).toContain('cannot lie in the record itself');
    tamper(folder, (raw) => raw.exec("UPDATE entries SET kind = 'heat' WHERE chain = 'joint-1' AND seq = 5"));
    expect((await asked(join(home, 'other'))).told).toContain('not intact (entry 5 of joint-1); it was not kept');
    expect(readdirSync(home).filter((name) => name.includes('other') || name.includes('unfinished'))).toEqual([]);
  });

  test('put back where the record holds more: what would be lost is listed, until somebody gives a reason', async () => {
    const bed = bench(undefined, () => signer);
    bed.store.commit(shortJob());
    const copy = copyOf(bed.folder);
    bed.store.commit([note(20, 'after the copy')]);
    const { seq, hash } = bed.store.head('joint-1');
    expect((await ran(restore, copy, bed.folder)).told).toContain('open in another program');
    bed.store.close();
    const refused = await ran(restore, copy, bed.folder);
    expect(refused.status).toBe(3);
    expect(refused.told).toContain(`joint-1: entries 9 to ${seq} (head joint-1=${seq}:${hash})`);
    expect(inspectRecord(bed.folder).chains[1]!.head.seq).toBe(seq);
    const done = await ran(restore, copy, bed.folder, '--reason', 'the disk failed');
    expect(done.status).toBe(0);
    const aside = /lies in (.*)\.$/m.exec(done.told)![1]!;
    expect(headsOf(aside)).toContainEqual({ chain: 'joint-1', seq, hash });
    const store = openRecord({
      ...{ folder: bed.folder, begin: false, program: 'test 1', now: () => at(30_000), signer: () => signer },
    });
    const said = [...store.stored('station')].map((row) => Buffer.from(row.bytes).toString());
    store.close();
    expect(said.filter((entry) => entry.includes('"kind":"restored"'))).toHaveLength(1);
    expect(said.join()).toContain('"reason":"the disk failed"');
    expect(said.join()).toContain(hash);
    expect(inspectRecord(bed.folder).ok).toBe(true);
    expect(inspectRecord(bed.folder, { knownHeads: [{ chain: 'joint-1', seq, hash }] }).firstBad).toMatchObject({
      ...{ chain: 'joint-1', seq: 9, why: 'cut off' },
    });
  });

  test('scans that nobody has sealed yet count as well; a copy that was altered; a record that cannot be read', () => {
    // As a station leaves it that was killed.
    const folder = join(temporaryFolder(), 'station');
    cpSync(closedRecord(true), folder, { recursive: true });
    const copy = join(dirname(folder), 'copy');
    keepCopy({ from: closedRecord(), to: copy, at: 'today' });
    const back = (reason?: string) => () =>
      putBack({ copy, record: folder, stamp: '1', ...(reason === undefined ? {} : { reason }) });
    expect(refusal(back())).toContain('the record holds what the copy lacks');
    const file = join(folder, 'record.sqlite');
    writeFileSync(file, readFileSync(file).fill(0x5a, 100));
    expect(refusal(back())).toContain('nobody can say what the copy lacks');
    expect(back('the disk failed')().aside).toBe(`${folder}.aside-1`);
    expect(inspectRecord(folder).ok).toBe(true);
    tamper(copy, (raw) => raw.exec("DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5"));
    expect(refusal(back('again'))).toContain('is not intact and was not put back');
  });
});

describe.each(faults)('every step fails once: %s', (fault) => {
  test('a copy is whole or not there, and the next attempt makes it', { timeout: 120_000 }, () => {
    const folder = closedRecord(true, signer);
    const heads = headsOf(folder);
    let step = 0;
    for (let struck = true; struck; ) {
      step += 7;
      const disk = faultyDisk();
      const to = join(dirname(folder), `copy-${step}`);
      disk.plan(step, fault);
      const told = refusal(() => keepCopy({ from: folder, to, at: 'today', disk }));
      struck = disk.heal();
      if (told !== 'nothing was refused') {
        expect(existsSync(to)).toBe(false);
        mkdirSync(`${to}.unfinished`, { recursive: true });
        keepCopy({ from: folder, to, at: 'today', disk });
      }
      expect(headsOf(to)).toEqual(heads);
    }
    expect(headsOf(folder)).toEqual(heads);
    expect(step).toBeGreaterThan(20);
  });

  test('put back: the record of before or the copy, never neither', { timeout: 120_000 }, () => {
    const folder = closedRecord(false, signer);
    const heads = headsOf(folder);
    const copy = copyOf(folder);
    let step = 0;
    for (let struck = true; struck; ) {
      step += 9;
      const disk = faultyDisk();
      disk.plan(step, fault);
      const back = () => putBack({ copy, record: folder, stamp: String(step), disk });
      const told = refusal(back);
      struck = disk.heal();
      expect(headsOf(folder)).toEqual(heads);
      if (told !== 'nothing was refused') expect(existsSync(`${folder}.aside-${step}`)).toBe(false);
    }
    expect(step).toBeGreaterThan(20);
  });
});

test('ended between laying the record aside and giving the copy its name: the same command finishes it, with what it knew', () => {
  const bed = bench();
  bed.store.commit(shortJob());
  const copy = copyOf(bed.folder);
  bed.store.commit([note(20, 'after the copy')]);
  bed.store.close();
  putBack({ copy, record: bed.folder, stamp: '1', reason: 'the disk failed' });
  renameSync(bed.folder, `${bed.folder}.unfinished`);
  expect(putBack({ copy, record: bed.folder, stamp: '2' })).toMatchObject({
    ...{ reason: 'the disk failed', laidAside: [{ chain: 'joint-1' }, { chain: 'station' }] },
  });
  expect(inspectRecord(bed.folder).ok).toBe(true);
});

describe('killed (SIGKILL) while it copies', () => {
  const copier = fileURLToPath(new URL('./copier.ts', import.meta.url));
  const recordOf = (bytes: number): string => {
    const bed = bench(undefined, () => signer);
    bed.store.putDocument(randomBytes(bytes), 'image/png');
    bed.store.commit(shortJob());
    bed.store.close();
    return bed.folder;
  };
  const killed = async (from: string, to: string, step: string): Promise<void> => {
    const child = spawn(process.execPath, ['--import', 'tsx', copier, from, to, step], { cwd: root });
    let told = '';
    child.stderr.on('data', (data) => {
      told += String(data);
    });
    child.stdout.on('data', () => {
      if (step === 'copying') child.kill('SIGKILL');
    });
    const [, signal] = await once(child, 'close');
    expect(signal, told).toBe('SIGKILL');
  };

  test.each(['copying', 'copied', 'looking through'])(
    'while %s: what is half-made has no name of a copy and is not put back unseen; the next copy goes through',
    { timeout: 60_000 },
    async (step) => {
      // Some megabytes where the writing itself is broken off, so that it takes a while.
      const folder = recordOf(step === 'copying' ? 8_000_000 : 1000);
      const heads = headsOf(folder);
      const to = join(dirname(folder), 'copy');
      await killed(folder, to, step);
      expect(readdirSync(dirname(folder)).filter((name) => name.startsWith('copy'))).toEqual(['copy.unfinished']);
      expect(readdirSync(`${to}.unfinished`), 'nothing says of it that it was verified').not.toContain('COPY.txt');

      // Whoever takes it for a copy all the same gets the whole record, or a refusal; never a part of it.
      const back = join(dirname(folder), 'back');
      const told = refusal(() => putBack({ copy: `${to}.unfinished`, record: back, stamp: '1' }));
      if (told === 'nothing was refused') expect(headsOf(back)).toEqual(heads);
      else expect(existsSync(back), told).toBe(false);
      if (step !== 'copying') expect(told).toBe('nothing was refused');

      expect(inspectRecord(folder).ok).toBe(true);
      const again = await ran(backup, folder, to);
      expect(again.status, again.told).toBe(0);
      expect([headsOf(to), inspectRecord(to).ok]).toEqual([heads, true]);
      expect(readdirSync(dirname(folder)).filter((name) => name.includes('unfinished'))).toEqual([]);
    },
  );
});
