/** Whatever is done to the file of a record, the inspection names the chain and the first bad entry. */
import { describe, expect, test } from 'vitest';
import { linkEntry, readEnvelope } from '../../../server/ledger/envelope.ts';
import type { Database } from '../../../server/record/database.ts';
import { type InspectionOptions, inspectRecord } from '../../../server/record/inspection.ts';
import { unpackEntry } from '../../../server/record/packed-entry.ts';
import { closedRecord, rewrite, rewriteAll, tamper } from '../../support/tampered-record.ts';

const tampered = (work: (raw: Database) => void, options: InspectionOptions = {}) => {
  const folder = closedRecord();
  tamper(folder, work);
  return inspectRecord(folder, options);
};
const sql = (text: string) => (raw: Database) => raw.exec(text);
const bytesOf = (raw: Database, seq: number): Uint8Array =>
  unpackEntry(
    raw.get<{ bytes: Uint8Array }>("SELECT bytes FROM entries WHERE chain = 'joint-1' AND seq = ?", seq)!.bytes,
  );

describe('the first bad entry is named', () => {
  test.each<[string, string, { seq: number; why: string }]>([
    ['an entry deleted', "DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5", { seq: 5, why: 'missing' }],
    [
      'an entry deleted and the rest numbered anew',
      "DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5;" +
        [6, 7, 8]
          .map((seq) => `UPDATE entries SET seq = ${seq - 1} WHERE chain = 'joint-1' AND seq = ${seq}`)
          .join(';'),
      { seq: 5, why: 'moved' },
    ],
    [
      'two entries swapped',
      "UPDATE entries SET seq = 99 WHERE chain = 'joint-1' AND seq = 3; UPDATE entries SET seq = 3 WHERE chain = 'joint-1' AND seq = 5;" +
        "UPDATE entries SET seq = 5 WHERE chain = 'joint-1' AND seq = 99",
      { seq: 3, why: 'moved' },
    ],
    ['the end cut off', "DELETE FROM entries WHERE chain = 'joint-1' AND seq > 6", { seq: 7, why: 'cut off' }],
    [
      'the end cut off, and the head moved back',
      "DELETE FROM entries WHERE chain = 'joint-1' AND seq > 6; UPDATE chains SET seq = 6, " +
        "hash = (SELECT hash FROM entries WHERE chain = 'joint-1' AND seq = 6) WHERE chain = 'joint-1'",
      { seq: 7, why: 'cut off' },
    ],
    [
      'a joint taken out altogether',
      "DELETE FROM entries WHERE chain = 'joint-1'; DELETE FROM blocks WHERE chain = 'joint-1'; DELETE FROM chains WHERE chain = 'joint-1'",
      { seq: 1, why: 'cut off' },
    ],
    [
      'an entry of another joint put in',
      "DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5; UPDATE entries SET chain = 'joint-1' WHERE chain = 'joint-2' AND seq = 5",
      { seq: 5, why: 'moved' },
    ],
    [
      'the scans of a block deleted',
      "DELETE FROM blocks WHERE chain = 'joint-1' AND seq = 4",
      { seq: 4, why: 'scans altered' },
    ],
    [
      'the scans of a block emptied, and no entry that says so',
      "UPDATE blocks SET packed = x'' WHERE chain = 'joint-1' AND seq = 4",
      { seq: 4, why: 'scans altered' },
    ],
    [
      'the scans of two blocks swapped',
      "UPDATE blocks SET seq = 99 WHERE chain = 'joint-1' AND seq = 2; UPDATE blocks SET seq = 2 WHERE chain = 'joint-1' AND seq = 4;" +
        "UPDATE blocks SET seq = 4 WHERE chain = 'joint-1' AND seq = 99",
      { seq: 2, why: 'scans altered' },
    ],
    [
      'an input filed as a conclusion',
      "UPDATE entries SET class = 'conclusion' WHERE chain = 'joint-1' AND seq = 5",
      { seq: 5, why: 'altered' },
    ],
    [
      'an act filed as another',
      "UPDATE entries SET kind = 'heat' WHERE chain = 'joint-1' AND seq = 5",
      { seq: 5, why: 'altered' },
    ],
    [
      'scans filed under another time',
      "UPDATE blocks SET measured_to = 0 WHERE chain = 'joint-1' AND seq = 4",
      { seq: 4, why: 'altered' },
    ],
    [
      'a position moved',
      "UPDATE entries SET position = 1 WHERE chain = 'joint-1' AND seq = 5",
      { seq: 5, why: 'altered' },
    ],
    [
      'positions of scans moved',
      "UPDATE blocks SET positions = x'5B312C345D' WHERE chain = 'joint-1' AND seq = 4",
      { seq: 4, why: 'altered' },
    ],
    [
      'positions of scans lost',
      "UPDATE blocks SET positions = x'' WHERE chain = 'joint-1' AND seq = 4",
      { seq: 4, why: 'altered' },
    ],
  ])('%s', (_, statement, firstBad) => {
    const seen = tampered(sql(statement));
    expect(seen.ok).toBe(false);
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', ...firstBad });
  });

  test('one bit of an entry flipped', () => {
    const seen = tampered((raw) => {
      const bytes = Uint8Array.from(bytesOf(raw, 3));
      bytes[40]! ^= 1;
      raw.run("UPDATE entries SET bytes = ? WHERE chain = 'joint-1' AND seq = 3", bytes);
    });
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 3, why: 'altered' });
    expect(seen.chains.map((chain) => chain.ok)).toEqual([true, false, true]);
  });

  test('one bit of an entry flipped where it lies packed, at any place', () => {
    const folder = closedRecord();
    const read = (raw: Database) =>
      raw.get<{ bytes: Uint8Array }>("SELECT bytes FROM entries WHERE chain = 'joint-1' AND seq = 3")!.bytes;
    let whole = new Uint8Array();
    tamper(folder, (raw) => {
      whole = Uint8Array.from(read(raw));
    });
    for (let byte = 0; byte < whole.length; byte += 5) {
      tamper(folder, (raw) =>
        raw.run(
          "UPDATE entries SET bytes = ? WHERE chain = 'joint-1' AND seq = 3",
          whole.map((each, index) => (index === byte ? each ^ 1 : each)),
        ),
      );
      expect(inspectRecord(folder).firstBad).toMatchObject({ chain: 'joint-1', seq: 3, why: 'altered' });
    }
  });

  test("a joint's chain rewritten with hashes that fit: the station's chain knows better", () => {
    const seen = tampered((raw) => rewrite(raw, 'joint-1', 5, () => ({ kind: 'note', text: 'no wind at all' })));
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 8, why: 'not the known head' });
  });

  test('every chain rewritten: only a head kept elsewhere shows it', () => {
    const folder = closedRecord();
    const printed = inspectRecord(folder).chains[1]!.head;
    tamper(folder, (raw) => rewriteAll(raw, 'joint-1', 5, () => ({ kind: 'note', text: 'no wind at all' })));
    expect(inspectRecord(folder).ok).toBe(true);
    const seen = inspectRecord(folder, { knownHeads: [{ chain: 'joint-1', ...printed }] });
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 8, why: 'not the known head' });
    expect(
      inspectRecord(folder, { knownHeads: [{ chain: 'joint-9', seq: 1, hash: printed.hash }] }).firstBad,
    ).toMatchObject({
      chain: 'joint-9',
      why: 'cut off',
    });
  });

  test('an entry put in with a hash that fits', () => {
    const seen = tampered((raw) => {
      const previous = raw.get<{ hash: string }>("SELECT hash FROM entries WHERE chain = 'joint-1' AND seq = 4")!.hash;
      for (const seq of [8, 7, 6, 5])
        raw.run("UPDATE entries SET seq = ? WHERE chain = 'joint-1' AND seq = ?", seq + 1, seq);
      const forged = linkEntry(previous, {
        ...readEnvelope(bytesOf(raw, 6)),
        seq: 5,
        body: { kind: 'note', text: 'forged' },
      });
      raw.run("INSERT INTO entries VALUES ('joint-1', 5, 9, 'input', 'note', ?, ?)", forged.hash, forged.bytes);
    });
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 5, why: 'put in' });
  });

  test('an entry hung on at the end', () => {
    const seen = tampered((raw) => {
      const { hash } = raw.get<{ hash: string }>("SELECT hash FROM chains WHERE chain = 'joint-1'")!;
      const forged = linkEntry(hash, { ...readEnvelope(bytesOf(raw, 5)), seq: 9 });
      raw.run("INSERT INTO entries VALUES ('joint-1', 9, 99, 'input', 'note', ?, ?)", forged.hash, forged.bytes);
    });
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 9, why: 'put in' });
  });

  test('a body that fits its hash and makes no sense', () => {
    const seen = tampered((raw) => rewrite(raw, 'joint-1', 1, () => ({ kind: 'opened' })));
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 1, why: 'altered' });
    expect(seen.firstBad?.detail).toContain('cannot be understood');
  });

  test('the beginning of the record taken out', () => {
    const seen = tampered(
      sql("DELETE FROM entries WHERE chain = 'station'; DELETE FROM chains WHERE chain = 'station'"),
    );
    expect(seen.firstBad).toMatchObject({ chain: 'station', seq: 1, why: 'missing' });
  });
});
