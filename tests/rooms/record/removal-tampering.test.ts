/** Whoever takes readings out by hand, or writes that they went out, is found. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { linkEntry } from '../../../server/ledger/envelope.ts';
import { headBytes } from '../../../server/ledger/head-text.ts';
import { createKeyPem, signerOfPem } from '../../../server/record/ed25519.ts';
import { inspectRecord } from '../../../server/record/inspection.ts';
import { at } from '../../support/record.ts';
import { archived, opened, withoutReadings } from '../../support/removed-record.ts';
import { rewrite, tamper } from '../../support/tampered-record.ts';

const packageIn = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

describe('what somebody does to it by hand is named', () => {
  type Raw = Parameters<Parameters<typeof tamper>[1]>[0];
  const seenAfter = (made: ReturnType<typeof withoutReadings>, work: (raw: Raw) => void) => {
    tamper(made.folder, work);
    return inspectRecord(made.folder);
  };
  /** Entry, signature and head as one would write them who knows the page. */
  const hungOn = (raw: Raw, sign: ((bytes: Uint8Array) => Uint8Array) | undefined, told: object = {}): void => {
    const { hash } = raw.get<{ hash: string }>("SELECT hash FROM chains WHERE chain = 'joint-1'")!;
    const head = `joint-1=8:${hash}`;
    const body = {
      blocks: 3,
      bytes: 1,
      scans: 8,
      first: 2,
      last: 6,
      head,
      package: 'ab'.repeat(32),
      reason: 'x',
      ...told,
    };
    const common = { chain: 'joint-1', seq: 9, at: at(60_000), class: 'block', kind: 'readings removed' } as const;
    const forged = linkEntry(hash, { ...common, who: 'Imke Sorel', role: 'coordinator', body });
    raw.run(
      "INSERT INTO entries (chain, seq, position, class, kind, hash, bytes) VALUES ('joint-1', 9, 12, 'block', 'readings removed', ?, ?)",
      forged.hash,
      forged.bytes,
    );
    if (sign !== undefined)
      raw.run(
        "INSERT INTO signatures (chain, seq, key, signature) VALUES ('joint-1', 9, 1, ?)",
        sign(headBytes({ chain: 'joint-1', seq: 9, hash: forged.hash })),
      );
    raw.run("UPDATE chains SET seq = 9, hash = ? WHERE chain = 'joint-1'", forged.hash);
    raw.exec("UPDATE blocks SET packed = x'' WHERE chain = 'joint-1'");
  };
  const stranger = signerOfPem(createKeyPem());

  test.each<[string, (made: ReturnType<typeof withoutReadings>) => ReturnType<typeof inspectRecord>, object]>([
    [
      'a removal without the key',
      () => seenAfter(archived(), (raw) => hungOn(raw, undefined)),
      { seq: 9, why: 'not signed' },
    ],
    [
      'a removal signed by a key of his own',
      () => seenAfter(archived(), (raw) => hungOn(raw, stranger.sign)),
      { seq: 9, why: 'not signed' },
    ],
    [
      'a removal with the key that does not fit the blocks',
      () => {
        const made = archived();
        return seenAfter(made, (raw) => hungOn(raw, made.signer.sign));
      },
      { seq: 9, why: 'altered' },
    ],
    [
      'a removal that names another package',
      (made) =>
        seenAfter(made, (raw) =>
          rewrite(raw, 'joint-1', 9, (body) => ({ ...(body as object), package: 'ab'.repeat(32) })),
        ),
      { seq: 9, why: 'not the known head' },
    ],
    [
      'other readings in the place of those that were removed',
      (made) =>
        seenAfter(made, (raw) => raw.exec("UPDATE blocks SET packed = x'0300' WHERE chain = 'joint-1' AND seq = 4")),
      { seq: 4, why: 'scans altered' },
    ],
    [
      'the very readings back without an entry',
      (made) => {
        const held = opened(packageIn(made.path));
        return seenAfter(made, (raw) =>
          raw.run("UPDATE blocks SET packed = ? WHERE chain = 'joint-1' AND seq = 4", held.packedOf(4)!),
        );
      },
      { seq: 4, why: 'altered' },
    ],
    [
      'the entry of the removal cut off',
      (made) =>
        seenAfter(made, (raw) =>
          raw.exec(
            "DELETE FROM entries WHERE chain = 'joint-1' AND seq = 9; UPDATE chains SET seq = 8, " +
              "hash = (SELECT hash FROM entries WHERE chain = 'joint-1' AND seq = 8) WHERE chain = 'joint-1'",
          ),
        ),
      { seq: 2, why: 'scans altered' },
    ],
  ])('%s', (_, seen, firstBad) => {
    expect(seen(withoutReadings())).toMatchObject({ ok: false, firstBad: { chain: 'joint-1', ...firstBad } });
  });
});
