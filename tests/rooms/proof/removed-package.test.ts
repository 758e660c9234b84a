/** A package that was made after the readings were removed, looked at by the command, by the script of its own text, and by the page of the format alone. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { bytesOf, file } from '../../../server/proof/layout.ts';
import { filesOf, listedAnew } from '../../support/package.ts';
import { independently, inspected, ran, unpackedTo } from '../../support/package-checks.ts';
import { opened, withoutReadings } from '../../support/removed-record.ts';

const made = () => {
  const { pack, path, signer } = withoutReadings();
  const bytes = pack();
  const before = new Uint8Array(readFileSync(path));
  return { bytes, before, signer, files: filesOf(bytes), sha256: opened(before).sha256 };
};

test('the command says that the readings are not in it and which package has them, and judges nothing', async () => {
  const { bytes, sha256 } = made();
  const { status, out } = await ran(bytes);
  expect(status).toBe(0);
  expect(out).toContain('INTACT, AND WITHOUT READINGS');
  expect(out).toContain(
    `by Imke Sorel, coordinator: ten years are over; the package with the SHA-256 ${sha256} holds them`,
  );
  expect(out).toContain('gaps in them were not looked at');
  expect(out).not.toContain('no gap in');
  expect(out).toMatch(
    /NOT JUDGED AGAIN by the rules of today: the readings are not in this package. Judge the one with/,
  );
});

test('so says a script that follows FORMAT.md only, and the script of its own text', () => {
  const { files, before, signer, sha256 } = made();
  expect(independently(files)).toBe(
    `INTACT: 9 entries, signed, simulated, silent 0 times, readings removed to ${sha256}`,
  );
  expect(new TextDecoder().decode(files[file.howTo])).toMatch(/WITHOUT ITS READINGS: .*\n(.*\n)+?.*[0-9a-f]{64}/);
  const sh = (folder: string) => {
    const take = "sed -n '/^ *LC_ALL=C/,/^ *echo .INTACT/s/^      //p' HOW-TO-VERIFY.txt >check.sh; sh check.sh";
    return spawnSync('sh', ['-c', take], { cwd: folder, encoding: 'utf8' });
  };
  const { status, stdout } = sh(unpackedTo(files));
  expect(status).toBe(0);
  expect(stdout.trim().split('\n').slice(-2)).toEqual([
    `READINGS REMOVED, and not looked at: they are in the package with the SHA-256 ${sha256}`,
    'INTACT, AND WITHOUT READINGS: 9 entries',
  ]);
  const whole = filesOf(before);
  const emptied = listedAnew({ ...whole, [file.scans]: bytesOf('') }, signer);
  expect(sh(unpackedTo(emptied)).stdout).toContain('ALTERED: the readings of entry 2 are altered');
  expect(inspected(emptied).firstBad).toMatchObject({ seq: 2, why: 'scans altered' });
  expect(independently(emptied)).toBe('ALTERED: the readings of entry 2');
});
