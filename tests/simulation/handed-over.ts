/**
 * A joint of the demonstration handed to somebody who has the package and nothing else: made twice alike, carried to an empty
 * folder, verified there as its own text tells, by its page, by the command; and whatever is done to it is named.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect } from 'vitest';
import { packageOf } from '../../server/errands/errand.ts';
import { readEnvelope } from '../../server/ledger/envelope.ts';
import { fingerprintOf } from '../../server/ledger/keys.ts';
import type { Program } from '../../server/program.ts';
import { type Files, file, splitLines } from '../../server/proof/layout.ts';
import { standingWords } from '../../server/proof/package-words.ts';
import { createKeyPem, signerOfPem } from '../../server/record/ed25519.ts';
import { signerBeside } from '../../server/record/key-file.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import type { TestBrowser } from '../support/browser.ts';
import { filesOf, rechained } from '../support/package.ts';
import { independently, inspected, ran, unpackedTo } from '../support/package-checks.ts';
import { tamperings } from '../support/tamperings.ts';

export interface HandedOver {
  readonly bytes: Uint8Array;
  readonly files: Files;
}

/** Twice, report and all. */
export const handOver = async (folder: string, joint: string, program: Program): Promise<HandedOver> => {
  const reader = openRecordReadOnly(folder);
  const { sign } = signerBeside(folder)([]);
  const make = () => packageOf(reader, { joint, zone: 'Europe/Oslo' }, program, sign);
  const bytes = await make();
  const again = await make();
  reader.close();
  expect(Buffer.compare(bytes, again)).toBe(0);
  return { bytes, files: filesOf(bytes) };
};

export const verifiedByCommand = async ({ bytes }: HandedOver): Promise<void> => {
  const { status, out } = await ran(bytes);
  expect(out).toContain('INTACT: as it was written, and signed by the station throughout.');
  expect(out).toMatch(/judged again by its own rules \(.*, shut in\): the same/);
  expect(out).toContain('judged again by the rules of today: the same');
  expect(status).toBe(0);
};

/** Every command that the text says to type, in its order, in a folder that holds the package and nothing else; but the slow one. */
export const verifiedByItsText = ({ files }: HandedOver, publicKey: string): void => {
  const folder = unpackedTo(files);
  const text = new TextDecoder().decode(files[file.howTo]);
  const commands = [...text.matchAll(/^ {6}((?:sha256sum|openssl|sed|sh) .*)$/gm)]
    .map(([, command]) => command!)
    .filter((command) => command !== 'sh check.sh each');
  const said = commands.map((command) => {
    const { status, stdout, stderr } = spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8' });
    expect([command, status, stderr]).toEqual([command, 0, '']);
    return stdout;
  });
  expect(commands.map((command) => command.split(' ')[0])).toEqual([
    'sha256sum',
    'openssl',
    'openssl',
    'sed',
    'sh',
    'openssl',
  ]);
  expect(
    said[0]!
      .trim()
      .split('\n')
      .every((line) => line.endsWith(': OK')),
  ).toBe(true);
  expect(said[4]).toMatch(
    /readings: simulated; \d{2,}, the longest .*\n.*the joint is closed\nINTACT: \d{2,} entries\n$/,
  );
  expect(said[5]).toContain(fingerprintOf(publicKey));
  expect(independently(files)).toMatch(/^INTACT: \d{2,} entries, signed, simulated, silent 0 times/);
};

export const verifiedByItsPage = async ({ bytes, files }: HandedOver, browser: TestBrowser): Promise<void> => {
  const folder = unpackedTo({ [file.page]: files[file.page]! });
  writeFileSync(join(folder, 'joint.zip'), bytes);
  const tab = await browser.page();
  await tab.goto(pathToFileURL(join(folder, file.page)).href);
  await tab.getByLabel('Package (.zip)').setInputFiles(join(folder, 'joint.zip'));
  await tab.getByText(/by the rules that came with this page: the same/).waitFor({ timeout: 90_000 });
  const said = (await tab.getByRole('status').textContent()) ?? '';
  expect(said).toContain('INTACT: as it was written, and signed by the station throughout.');
  expect(said).toMatch(/judged again by its own rules \(.*\), shut in: the same/);
};

export const everyTamperingIsNamed = (folder: string, chain: string, { files: whole }: HandedOver): void => {
  const signer = signerBeside(folder)([]);
  const stranger = signerOfPem(createKeyPem());
  const at = 1 + splitLines(whole[file.entries]!).findIndex((line, index) => index > 4 && isNoBlock(line));
  const other = rechained(whole, at, () => ({ kind: 'note', text: 'of another record' }), stranger);
  const table = tamperings({ whole, other, chain, at, signer, stranger });
  expect(table.length).toBeGreaterThan(14);
  for (const [what, files, told] of table) {
    const seen = inspected(files);
    expect([what, seen.intact, standingWords(seen).join('\n')]).toEqual([what, false, expect.stringMatching(told)]);
  }
};

const isNoBlock = (line: Uint8Array): boolean => readEnvelope(line).class !== 'block';
