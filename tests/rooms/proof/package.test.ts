/** A package: the same bytes each time, verified by the command, by common tools as its own text says, and by a script that follows FORMAT.md only; whatever is done to it is named. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readEnvelope } from '../../../server/ledger/envelope.ts';
import { sha256Hex } from '../../../server/ledger/hash.ts';
import { headBytes, headText, signatureText, signedHeadText } from '../../../server/ledger/head-text.ts';
import { fingerprintOf, pemOfKey } from '../../../server/ledger/keys.ts';
import { bytesOf, file, joinLines, rulesFile, splitLines } from '../../../server/proof/layout.ts';
import { standingWords } from '../../../server/proof/package-words.ts';
import { unzipped } from '../../../server/proof/zip.ts';
import {
  answeringRules,
  filesOf,
  listedAnew,
  packageOf,
  packed,
  photo,
  rechained,
  stationKey as signer,
  strangersKey,
} from '../../support/package.ts';
import { independently, inspected, ran, unpackedTo } from '../../support/package-checks.ts';
import { tamperings } from '../../support/tamperings.ts';

const whole = filesOf(packageOf({ signer }));

test('the same record gives the same bytes, in order of names and without a time of its own', () => {
  const again = packed(filesOf(packed(whole)));
  expect(packed(whole)).toEqual(again);
  expect(Object.keys(whole)).toEqual(Object.keys(whole).sort());
  expect(Object.keys(whole).filter((name) => name.startsWith('documents/'))).toEqual([
    `documents/${sha256Hex(photo)}.png`,
  ]);
});

test('no file of it holds the private key', () => {
  expect(
    Object.keys(whole).filter((name) => new TextDecoder('latin1').decode(whole[name]).includes('PRIVATE')),
  ).toEqual([]);
});

test('an intact package: by the command, judged again by its own rules, shut in, and by those of today', async () => {
  const { status, out } = await ran(packed(whole), '--key', fingerprintOf(signer.publicKey));
  expect(out).toContain('INTACT: as it was written, and signed by the station throughout.');
  expect(out).toContain('SIMULATED (board-1 says so)');
  expect(out).toContain('no gap in the readings of board-1');
  expect(out).toContain('judged again by its own rules (test 1, shut in): the same');
  expect(out).toContain('judged again by the rules of today: the same');
  expect(out).toContain('share one judge');
  expect(status).toBe(0);
});

test('its own rules say otherwise: both verdicts are told', async () => {
  const { status, out } = await ran(packageOf({ signer, rules: answeringRules('complies') }));
  expect(out).toContain(
    'VERDICT DIFFERS: recorded cannot-be-judged, judged again by its own rules (test 1, shut in): complies',
  );
  expect(status).toBe(1);
});

test('a package of a record without a key is read, judged, and told as not signed', async () => {
  const bytes = packageOf();
  const { status, out } = await ran(bytes);
  expect(out).toContain('INTACT, AND NOT SIGNED');
  expect(out).toContain('NOTHING VOUCHES FOR THEM');
  expect(status).toBe(0);
  expect(independently(filesOf(bytes))).toBe('INTACT: 9 entries, not signed, simulated, silent 0 times');
});

describe('whatever is done to it, the first bad entry or the file is named', () => {
  const body = { kind: 'note', text: 'no wind at all' };
  const other = filesOf(packageOf({ signer, wind: 'no wind at all' }));
  const table = tamperings({ whole, other, chain: 'joint-1', at: 5, signer, stranger: strangersKey });
  test.each(table)('%s', (what, files, told, independent) => {
    const seen = inspected(files);
    expect([what, seen.intact]).toEqual([what, false]);
    expect(standingWords(seen).join('\n')).toMatch(told);
    expect(independently(files)).toMatch(independent);
  });

  test('rewritten with the key: only a head that has left the house shows it, and it does', async () => {
    const [last] = splitLines(whole[file.entries]!).slice(-1);
    const head = { chain: 'joint-1', seq: readEnvelope(last!).seq, hash: sha256Hex(last!) };
    const forged = packed(
      listedAnew(
        rechained(whole, 5, () => body, signer),
        signer,
      ),
    );
    expect((await ran(forged)).status).toBe(0);
    const { status, out } = await ran(
      forged,
      '--head',
      signedHeadText({ ...head, signature: signatureText(signer.sign(headBytes(head))) }),
    );
    expect(out).toContain(`First bad entry: entry ${head.seq} of joint-1: not the entry that is known from elsewhere`);
    expect(status).toBe(1);
    expect((await ran(forged, '--head', headText({ ...head, chain: 'joint-2' }))).out).toContain(
      'is a head of another joint',
    );
  });

  test('made anew with another key throughout: the key of an earlier report, or a signed head', async () => {
    const bytes = packageOf({ signer: strangersKey });
    expect((await ran(bytes)).status).toBe(0);
    expect((await ran(bytes, '--key', fingerprintOf(signer.publicKey))).out).toContain(
      'No key of this record has the fingerprint',
    );
    const head = { chain: 'joint-1', seq: 3, hash: 'ab'.repeat(32) };
    const { status, out } = await ran(
      bytes,
      '--head',
      signedHeadText({ ...head, signature: signatureText(signer.sign(headBytes(head))) }),
    );
    expect([status, out.includes('signed, and by no key of this record')]).toEqual([1, true]);
  });
});

test('what is no package is refused in words', async () => {
  expect(unzipped(bytesOf('no zip'))).toMatchObject({ refused: expect.stringContaining('cannot be unpacked') });
  expect(unzipped(packed({ 'a.txt': bytesOf('a') }))).toMatchObject({
    refused: expect.stringContaining('no package of a joint'),
  });
  expect((await ran(bytesOf('no zip'))).status).toBe(3);
  expect(Object.keys(whole)).toContain(rulesFile(sha256Hex(bytesOf(answeringRules('cannot-be-judged')))));
  expect(joinLines([bytesOf('a')])).toEqual(bytesOf('a\n'));
});

test('the script and the commands of HOW-TO-VERIFY.txt do what the text says', (context) => {
  const folder = unpackedTo(whole);
  const run = (command: string) => spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8' });
  try {
    execFileSync('sh', ['-c', 'command -v openssl && command -v sha256sum'], { stdio: 'pipe' });
  } catch {
    context.skip('openssl or sha256sum is not on this machine');
  }
  const text = new TextDecoder().decode(whole[file.howTo]);
  const commands = [...text.matchAll(/^ {6}((?:sha256sum -c|openssl) .*)$/gm)].map(([, command]) => command!);
  expect(commands).toHaveLength(4);
  for (const command of commands) expect([command, run(command).status]).toEqual([command, 0]);
  expect(run(commands[3]!).stdout).toContain(fingerprintOf(signer.publicKey));
  expect(new TextDecoder().decode(whole['keys/1.pem'])).toBe(pemOfKey(signer.publicKey));
  const copied = /^ {6}(sed -n .*)$/m.exec(text)![1]!;
  expect(run(copied)).toMatchObject({ status: 0, stderr: '' });
  for (const command of ['sh check.sh', 'sh check.sh each'])
    expect(run(command)).toMatchObject({
      stderr: '',
      stdout: expect.stringMatching(
        /readings: simulated; 8, the longest time between two blocks of them 2 s\nthe station gave no sign of being awake 0 times, 0 s in all; the joint is closed\nINTACT: 9 entries\n$/,
      ),
    });
  const altered = (name: string, change: (text: string) => string) => {
    const path = join(folder, name);
    const before = readFileSync(path, 'latin1');
    writeFileSync(path, change(before), 'latin1');
    const said = run('sh check.sh each');
    writeFileSync(path, before, 'latin1');
    return [said.status, said.stdout.trim().split('\n').at(-1)];
  };
  expect(altered('entries.jsonl', (each) => each.replace('groove', 'groves'))).toEqual([
    1,
    'ALTERED: entry 6 is not signed as it stands',
  ]);
  expect(altered('scans.jsonl', (each) => each.replace('150001', '150002'))[1]).toBe(
    'ALTERED: the readings of entry 2 are altered',
  );
  expect(altered('signatures.txt', (each) => each.replace(/\n.*\n/, '\n'))[1]).toBe(
    'ALTERED: entry 2 is not signed as it stands',
  );
  expect(altered('entries.jsonl', (each) => each.split('\n').toSpliced(3, 1).join('\n'))[1]).toBe(
    'ALTERED: entry 4 does not follow entry 3',
  );
  expect(altered('entries.jsonl', (each) => each.split('\n').slice(0, -2).join('\n').concat('\n'))[1]).toBe(
    'ALTERED: the head is not that of entry 8',
  );
});
