/** A package with a time stamp: read by the command, the independent script and OpenSSL, and whatever is done to it is named. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { StampBody } from '../../../server/ledger/stamp-entry.ts';
import { type Files, file } from '../../../server/proof/layout.ts';
import { standingWords } from '../../../server/proof/package-words.ts';
import { filesOf, listedAnew, packageOf, packed, rechained, stationKey as signer } from '../../support/package.ts';
import { independently, inspected, ran, unpackedTo } from '../../support/package-checks.ts';
import { temporaryFolder } from '../../support/record.ts';
import { answers, changed } from '../../support/stamps/answers.ts';

const otherYear = (base64: string): string =>
  Buffer.from(changed(Buffer.from(base64, 'base64'), '\x18\x0f2026', '\x18\x0f2024')).toString('base64');

describe('a package with a time stamp', () => {
  const stamped = filesOf(packageOf({ signer, stamped: true }));
  const root = (): string => {
    const path = join(temporaryFolder(), 'CA.pem');
    writeFileSync(path, answers.root);
    return path;
  };

  test('is read by the command, by a script that knows FORMAT.md only, and by OpenSSL as the text says', async (context) => {
    const { status, out } = await ran(packed(stamped), '--tsa-ca', root());
    expect(out).toContain('time stamp: entry 9, and with it all before it, was there at 2026-03-02 07:00:00 UTC');
    expect([status, out.includes('issued under Root of Stamps (test), which you trust')]).toEqual([0, true]);
    expect(independently(stamped)).toBe('INTACT: 10 entries, signed, simulated, silent 0 times, stamped 1 times');
    const folder = unpackedTo(stamped);
    writeFileSync(join(folder, 'CA.pem'), answers.root);
    if (spawnSync('openssl', ['version']).error !== undefined) context.skip('openssl is not on this machine');
    const text = new TextDecoder().decode(stamped[file.howTo]);
    const commands = [...text.matchAll(/^ {6}(openssl ts .*)$/gm)].map(([, command]) => command!);
    expect(commands).toHaveLength(2);
    const said = commands.map((command) => spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8' }).stdout);
    expect(said[0]).toContain('Verification: OK');
    expect(said[1]).toContain('Time stamp: Mar  2 07:00:00 2026 GMT');
    expect(independently(stamped, root())).toContain('stamped 1 times');
  });

  type Row = [what: string, files: Files, told: RegExp, independent: RegExp];
  test.each<Row>([
    [
      'rewritten with the key, its stamp left in its place',
      listedAnew(
        rechained(stamped, 5, () => ({ kind: 'note', text: 'no wind at all' }), signer),
        signer,
      ),
      /entry 9 of joint-1: not the entry that is known from elsewhere\. Entry 10 holds a time stamp of hash/,
      /entry 9 is not the one that was stamped in entry 10/,
    ],
    [
      'another time in the answer, with the key',
      listedAnew(
        rechained(
          stamped,
          10,
          (body) => ({ ...(body as object), answer: otherYear((body as StampBody).answer) }),
          signer,
        ),
        signer,
      ),
      /time stamp of entry 9 of joint-1, kept in entry 10, DOES NOT HOLD: it was altered/,
      /stamps\/10 is not what entry 10 holds/,
    ],
    [
      'the stamp of another record',
      listedAnew({ ...stamped, 'stamps/10.tsr': answers.plain }, signer),
      /stamps\/10\.tsr is not what the record holds/,
      /stamps\/10 is not what entry 10 holds/,
    ],
  ])('%s', (_what, files, told, independent) => {
    const seen = inspected(files);
    expect([seen.intact, standingWords(seen).join('\n')]).toEqual([false, expect.stringMatching(told)]);
    expect(independently(files)).toMatch(independent);
  });
});
