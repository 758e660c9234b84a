/** The commands that take readings out of a record and put them back, and what `verify` says of it. */
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { backup } from '../../../server/commands/backup.ts';
import type { Command } from '../../../server/commands/command.ts';
import { putBackReadings } from '../../../server/commands/put-back-readings.ts';
import { removeReadings } from '../../../server/commands/remove-readings.ts';
import { verify } from '../../../server/commands/verify.ts';
import { whatIf } from '../../../server/commands/what-if.ts';
import { keep } from '../../../server/errands/keeping.ts';
import { scanItem, shortJob, temporaryFolder } from '../../support/record.ts';
import { archived, opened, reading, withoutReadings } from '../../support/removed-record.ts';

const ran = async (command: Command, ...args: string[]) => {
  const [out, err]: string[][] = [[], []];
  const status = await command.run(args, { out: (text) => out!.push(text), err: (text) => err!.push(text) });
  return { status, out: out!.join('\n'), err: err!.join('\n') };
};
const who = ['--who', 'Imke Sorel', '--role', 'coordinator'];
const why = [...who, '--reason', 'ten years are over'];

test('looked at first, then removed with --do, named by verify, checked with the package, put back', async () => {
  const { folder, path } = archived();
  const asked = [folder, 'joint-1', '--package', path, ...why];
  const look = await ran(removeReadings, ...asked);
  expect(look).toMatchObject({ status: 0, err: '' });
  expect(look.out).toMatch(/^Would go: 8 scans of joint-1.*\n {2}SHA-256 [0-9a-f]{64}\n.*Nothing was done.*--do/);
  expect(look.out).toContain('Keep two copies of it in two places.');
  expect(reading(folder, (reader) => reader.removed('joint-1'))).toBeUndefined();
  const done = await ran(removeReadings, ...asked, '--do');
  expect(done).toMatchObject({ status: 0, err: '' });
  expect(done.out).toMatch(/^Removed: 8 scans of joint-1[\s\S]*The file of the record: \d+ kB before, \d+ kB now\.$/);

  const sha256 = opened(new Uint8Array(readFileSync(path))).sha256;
  const seen = await ran(verify, folder);
  expect(seen.status).toBe(0);
  const [first, second] = seen.out.split('\n');
  expect(first).toBe(`INTACT: the record in ${folder} is as it was written.`);
  expect(second).toMatch(
    new RegExp(
      `^READINGS REMOVED of joint-1: removed from the record .* by Imke Sorel, coordinator: ten years are over; the package with the SHA-256 ${sha256} holds them. They were not looked at: give that package with --readings FILE.$`,
    ),
  );
  expect(seen.out).not.toContain('no gap in the readings');
  expect(seen.out).toMatch(/NOT JUDGED AGAIN by the rules of today: The readings of joint-1 are not in this record/);
  const checked = await ran(verify, folder, '--readings', path);
  expect([checked.status, checked.err]).toEqual([0, '']);
  expect(checked.out).toContain('They were looked at in that package.');
  expect(checked.out).toContain('no gap in the readings of board-1');
  expect(checked.out).toContain('judged again by the rules of today: the same');
  const json = JSON.parse((await ran(verify, folder, '--json')).out);
  expect(json.chains[1]).toMatchObject({ ok: true, readings: { state: 'removed' }, removals: [{ package: sha256 }] });
  const supposed = await ran(whatIf, folder, 'joint-1', '--without', 'A1');
  expect(supposed).toMatchObject({ status: 3, err: expect.stringContaining('are not in this record: removed') });

  const back = await ran(putBackReadings, folder, '--package', path, ...who);
  expect(back).toMatchObject({ status: 0, err: '', out: expect.stringContaining('Put back: 8 scans of joint-1') });
  const whole = await ran(verify, folder);
  expect(whole.out).not.toContain('READINGS REMOVED');
  expect(whole.out).toContain('put back into the record');
  expect(whole.out).toContain('judged again by the rules of today: the same');
});

test('every refusal says what to do next, and nothing is done', async () => {
  const { folder, path } = archived();
  const asked = [folder, 'joint-1', '--package', path];
  const says = async (told: RegExp, ...args: string[]) => {
    const { status, err } = await ran(removeReadings, ...args);
    expect([status, told.test(err) ? told.source : err]).toEqual([3, told.source]);
  };
  await says(/--reason TEXT says why/, ...asked, ...who, '--do');
  await says(/--who NAME --role ROLE/, ...asked, '--reason', 'x', '--do');
  await says(
    /removing readings from the record: coordinator/,
    ...asked,
    '--who',
    'A',
    '--role',
    'welder',
    '--reason',
    'x',
  );
  await says(/for removing readings from the record: coordinator/, ...asked, '--who', 'A', '--reason', 'x');
  await says(/--package FILE names the package/, folder, 'joint-1', ...why);
  await says(/cannot be read: .*Check the name/, folder, 'joint-1', '--package', `${path}.not`, ...why);
  await says(/Give the package of joint-2/, folder, 'joint-2', '--package', path, ...why, '--do');
  const damaged = join(temporaryFolder(), 'damaged.zip');
  writeFileSync(
    damaged,
    readFileSync(path).map((byte, place) => (place === 900 ? byte ^ 1 : byte)),
  );
  await says(/Take another copy of it, or make a new one/, folder, 'joint-1', '--package', damaged, ...why, '--do');
  await says(/--closed-before wants a day/, folder, '--closed-before', '2026-02-30', '--packages', '.', ...why);
  await says(/go together/, folder, '--packages', '.', ...why);
  await says(/There is no record in/, join(folder, 'x'), 'joint-1', '--package', path, ...why);
  const { bed } = withoutReadings();
  bed.reopen();
  await says(
    /open in another program.*do this on its page instead/,
    bed.folder,
    'joint-1',
    '--package',
    path,
    ...why,
    '--do',
  );
  expect((await ran(putBackReadings, bed.folder, '--package', path, ...who)).err).toContain('open in another program');
  expect((await ran(verify, folder, '--readings', path)).err).toContain('there is nothing to put back');
  expect(reading(folder, (reader) => reader.removals('joint-1'))).toEqual([]);
});

test('all joints closed before a day whose packages lie in a folder; the others stay, and are named', async () => {
  const { folder, pack } = archived([...shortJob(), ...shortJob('joint-2'), ...shortJob('joint-3').slice(0, -2)]);
  const packages = join(temporaryFolder(), 'archive');
  mkdirSync(packages);
  writeFileSync(join(packages, 'one.zip'), pack());
  const old = [folder, '--closed-before', '2026-03-03', '--packages', packages, '--zone', 'UTC', ...why];
  const nothing = await ran(removeReadings, folder, '--closed-before', '2026-03-02', '--packages', packages, ...why);
  expect([nothing.status, nothing.err.includes('Nothing was done')]).toEqual([3, true]);
  const look = await ran(removeReadings, ...old);
  expect(look).toMatchObject({ status: 0, out: expect.stringContaining('Would go: 8 scans of joint-1') });
  expect(look.err).toMatch(/^joint-2, closed 2026-03-02: no package in .* that fits. It stays.$/);
  const done = await ran(removeReadings, ...old, '--do');
  expect(done.status).toBe(3);
  const away = reading(folder, (reader) => ['joint-1', 'joint-2', 'joint-3'].map((id) => reader.removed(id)?.reason));
  expect(away).toEqual(['ten years are over', undefined, undefined]);
});

test('the file becomes smaller by what went; the daily check, a copy and its command say what is not in it', async () => {
  const many = Array.from({ length: 2500 }, (_, index) =>
    scanItem(20 + index, 'joint-1', { inputs: (index * 7919) % 251 }),
  );
  const job = shortJob();
  const { folder, path } = archived([...job.slice(0, -2), ...many, ...job.slice(-2)]);
  const file = join(folder, 'record.sqlite');
  const before = statSync(file).size;
  const went = reading(folder, (reader) => reader.blocks('joint-1').reduce((sum, { bytes }) => sum + bytes, 0));
  expect((await ran(removeReadings, folder, 'joint-1', '--package', path, ...why, '--do')).status).toBe(0);
  expect(before - statSync(file).size).toBeGreaterThan(went / 2);
  expect(keep({ kind: 'check record' }, folder, { rules: 'test' })).toMatchObject({ away: 1 });
  const copy = join(temporaryFolder(), 'copy');
  expect((await ran(backup, folder, copy)).out).toContain('the readings of 1 joint are not in it');
  const back = await ran(putBackReadings, copy, '--package', path, ...who);
  expect(back).toMatchObject({ status: 3, err: expect.stringContaining('key') });
});
