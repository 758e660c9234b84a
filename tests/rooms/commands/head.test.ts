/** The head of a joint as a file, and what `verify --head` makes of the file. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { head } from '../../../server/commands/head.ts';
import { verify } from '../../../server/commands/verify.ts';
import { createKeyPem, signerOfPem } from '../../../server/record/ed25519.ts';
import { temporaryFolder } from '../../support/record.ts';
import { closedRecord, rewriteAll, tamper } from '../../support/tampered-record.ts';

test('a head that left as a file shows what was rewritten with the key since', async () => {
  const signer = signerOfPem(createKeyPem());
  const folder = closedRecord(false, signer);
  const file = join(temporaryFolder(), 'kept.txt');
  const said: string[] = [];
  const terminal = { out: (text: string) => said.push(text), err: (text: string) => said.push(text) };
  expect(await head.run([folder, 'joint-1', '--out', file], terminal)).toBe(0);
  expect(readFileSync(file, 'utf8')).toMatch(
    /^joint-1=8:[0-9a-f]{64}:[0-9a-f]{128}\n\nHead of the record of joint-1, up to entry 8\./,
  );
  expect(await head.run([folder, 'joint-1', '--out', file], terminal)).toBe(3);
  expect(said.join()).toContain('is there already; name another with --out, or add --force');
  expect(await head.run([folder, 'joint-7'], terminal)).toBe(3);
  expect(said.join()).toContain('no joint "joint-7"');

  expect(await verify.run([folder, '--head', file], terminal)).toBe(0);
  tamper(folder, (raw) => rewriteAll(raw, 'joint-1', 5, () => ({ kind: 'note', text: 'no wind' }), signer));
  expect(await verify.run([folder], terminal)).toBe(0);
  expect(await verify.run([folder, '--head', file], terminal)).toBe(1);
  expect(said.at(-1)).toContain('First bad entry: entry 8 of joint-1: not the entry that is known from elsewhere');
  writeFileSync(file, 'a letter without a head');
  expect(await verify.run([folder, '--head', file], terminal)).toBe(3);
  expect(said.join()).toContain('or a file that holds one');
});
