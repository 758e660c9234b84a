/** Whatever is done to the file of a record, the inspection names the chain and the first bad entry. */
import { readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { linkEntry, readEnvelope } from '../../../server/ledger/envelope.ts';
import { noHash } from '../../../server/ledger/hash.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { Database } from '../../../server/record/database.ts';
import { type InspectionOptions, inspectRecord } from '../../../server/record/inspection.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { plainAnalysis, plainJoint, plainPart } from '../../support/plain-joint.ts';
import { act, at, bench, note, opened, scanItem, shortJob, station, verdict } from '../../support/record.ts';

/** A closed record of two joints, with a document. Its first joint has eight entries: see shortJob. */
const record = (leaveUnsealed = false): string => {
  const bed = bench();
  bed.store.putDocument(new Uint8Array([1, 2, 3]), 'image/png');
  bed.store.commit(shortJob());
  bed.store.commit(shortJob('joint-2'));
  if (leaveUnsealed) {
    bed.store.close();
    bed.reopen();
    bed.store.commit([scanItem(20), scanItem(21)]);
    return bed.folder;
  }
  bed.store.close();
  return bed.folder;
};

/** As someone would who can write to the file and knows SQL. */
const tamper = (folder: string, work: (raw: Database) => void): void => {
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
  for (const table of ['entries', 'blocks', 'documents'])
    raw.exec(`DROP TRIGGER ${table}_stay; DROP TRIGGER ${table}_last`);
  work(raw);
  raw.close();
};
const tampered = (work: (raw: Database) => void, options: InspectionOptions = {}) => {
  const folder = record();
  tamper(folder, work);
  return inspectRecord(folder, options);
};
const sql = (text: string) => (raw: Database) => raw.exec(text);
const bytesOf = (raw: Database, seq: number): Uint8Array =>
  raw.get<{ bytes: Uint8Array }>("SELECT bytes FROM entries WHERE chain = 'joint-1' AND seq = ?", seq)!.bytes;

test('a sound record: what it holds, and that every chain and document is as it was written', () => {
  const seen = inspectRecord(record());
  expect(seen).toMatchObject({
    ok: true,
    verdictDiffers: false,
    documents: { kept: 1, altered: [], missing: [], notKept: [] },
  });
  expect(seen.chains.map((chain) => [chain.chain, chain.ok, chain.entries, chain.scans])).toEqual([
    ['station', true, 2, 0],
    ['joint-1', true, 8, 8],
    ['joint-2', true, 8, 8],
  ]);
  expect(seen.chains[1]).toMatchObject({
    openedAt: at(0),
    closedAt: at(11_000),
    from: at(960),
    to: at(9960),
    source: { kind: 'simulated' },
    recordedVerdict: 'cannot-be-judged',
    stepsBack: 0,
    unsealed: 0,
  });
});

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

  /** Writes everything anew from an entry on, with hashes that fit, as one would who knows the format. */
  const rewrite = (raw: Database, chain: string, from: number, change: (body: unknown) => unknown): void => {
    const rows = raw.all<{ seq: number; bytes: Uint8Array }>(
      'SELECT seq, bytes FROM entries WHERE chain = ? ORDER BY seq',
      chain,
    );
    let previous = noHash;
    for (const { seq, bytes } of rows) {
      const envelope = readEnvelope(bytes);
      const linked =
        seq < from
          ? undefined
          : linkEntry(previous, { ...envelope, body: seq === from ? change(envelope.body) : envelope.body });
      previous =
        linked?.hash ??
        raw.get<{ hash: string }>('SELECT hash FROM entries WHERE chain = ? AND seq = ?', chain, seq)!.hash;
      if (linked !== undefined) {
        raw.run(
          'UPDATE entries SET bytes = ?, hash = ? WHERE chain = ? AND seq = ?',
          linked.bytes,
          linked.hash,
          chain,
          seq,
        );
      }
    }
    raw.run('UPDATE chains SET hash = ? WHERE chain = ?', previous, chain);
  };

  test("a joint's chain rewritten with hashes that fit: the station's chain knows better", () => {
    const seen = tampered((raw) => rewrite(raw, 'joint-1', 5, () => ({ kind: 'note', text: 'no wind at all' })));
    expect(seen.firstBad).toMatchObject({ chain: 'joint-1', seq: 8, why: 'not the known head' });
  });

  test('every chain rewritten: only a head kept elsewhere shows it', () => {
    const folder = record();
    const printed = inspectRecord(folder).chains[1]!.head;
    tamper(folder, (raw) => {
      rewrite(raw, 'joint-1', 5, () => ({ kind: 'note', text: 'no wind at all' }));
      const { seq, hash } = raw.get<{ seq: number; hash: string }>(
        "SELECT seq, hash FROM chains WHERE chain = 'joint-1'",
      )!;
      rewrite(raw, 'station', 2, (body) => ({
        heads: (body as { heads: { chain: string }[] }).heads.map((head) =>
          head.chain === 'joint-1' ? { chain: 'joint-1', seq, hash } : head,
        ),
      }));
    });
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

test('scans not sealed yet: how many, that they can be read, and that none is missing', () => {
  expect(inspectRecord(record(true))).toMatchObject({ ok: true, chains: [{}, { unsealed: 2 }, {}] });
  for (const [statement, why] of [
    ['DELETE FROM journal WHERE position = (SELECT max(position) FROM journal)', 'missing'],
    ["UPDATE journal SET scan = x'7B7D'", 'scans altered'],
    ['UPDATE journal SET measured_at = 5', 'scans altered'],
  ] as const) {
    const folder = record(true);
    tamper(folder, sql(statement));
    expect(inspectRecord(folder).firstBad).toMatchObject({ chain: 'joint-1', seq: 9, why });
  }
});

test('documents: altered, handed in and missing, named and never kept', () => {
  const bed = bench();
  const [kept, lost] = [new Uint8Array([1]), new Uint8Array([2])].map((bytes) =>
    bed.store.putDocument(bytes, 'image/png'),
  );
  const attach = { kind: 'attach', title: 'photo', mediaType: 'image/png', bytes: 1 } as const;
  const analyses = [{ ...plainAnalysis, document: 'f'.repeat(64) }];
  bed.store.commit([
    opened(0),
    act(1, { ...attach, sha256: kept! }),
    act(2, { ...attach, sha256: lost! }),
    act(3, { kind: 'note', text: 'see the photo', document: kept! }),
    act(4, { kind: 'revise', joint: plainJoint({ parts: [plainPart({ analyses })] }), reason: 'certificate came' }),
  ]);
  bed.store.close();
  const notKept = ['f'.repeat(64)];
  expect(inspectRecord(bed.folder)).toMatchObject({
    ok: true,
    documents: { kept: 2, altered: [], missing: [], notKept },
  });
  tamper(bed.folder, (raw) => raw.run("UPDATE documents SET bytes = x'07' WHERE sha256 = ?", kept!));
  expect(inspectRecord(bed.folder)).toMatchObject({ ok: false, documents: { altered: [kept] } });
  const raw = sqliteDisk.open(join(bed.folder, 'record.sqlite'), 'write');
  raw.run('DELETE FROM documents WHERE sha256 = ?', lost!);
  raw.close();
  expect(inspectRecord(bed.folder)).toMatchObject({ ok: false, documents: { missing: [lost] } });
});

test('completeness in time: gaps of a board, sleep of the station, clocks that step back', () => {
  const bed = bench();
  bed.store.commit([
    opened(0),
    ...[1, 2, 3, 10, 11].map((n) => scanItem(n)),
    station(12, { kind: 'period', board: 'board-2', periodMilliseconds: 5000 }),
    ...[12, 24, 40].map((n) => scanItem(n, 'joint-1', { board: 'board-2' })),
    station(11, { kind: 'clock', steppedMilliseconds: -29_000 }),
  ]);
  bed.store.sealDue(at(10 * limits.sealAfterMilliseconds));
  bed.store.commit([act(601, { kind: 'declare source', statement: 'these are real wires' })]);
  const chain = inspectRecord(bed.folder).chains[1]!;
  expect(chain.gaps).toEqual([
    { board: 'board-1', gaps: { count: 1, totalMilliseconds: 7000, listed: [{ from: at(2960), to: at(9960) }] } },
    { board: 'board-2', gaps: { count: 1, totalMilliseconds: 16_000, listed: [{ from: at(23_960), to: at(39_960) }] } },
  ]);
  expect(chain.asleep.listed).toEqual([{ from: at(40_000), to: at(600_000) }]);
  expect(chain.stepsBack).toBe(1);
  expect(chain.declaredBy).toEqual(['R. Ahlgren']);
});

test('a file that SQLite itself finds damaged says so', () => {
  const folder = record();
  const file = join(folder, 'record.sqlite');
  const whole = readFileSync(file);
  truncateSync(file, Math.floor(statSync(file).size / 2 / 4096) * 4096);
  const cut = inspectRecord(folder);
  expect([cut.ok, cut.damaged === undefined]).toEqual([false, false]);
  writeFileSync(file, whole.fill(0x5a, 4096, 12_288));
  const overwritten = inspectRecord(folder);
  expect([overwritten.ok, overwritten.damaged === undefined]).toEqual([false, false]);
});

test('judging anew: the same verdict, another one, and none recorded yet', () => {
  const folder = record();
  const said = (word: string) =>
    inspectRecord(folder, { rejudge: (inputs) => ({ verdict: `${word}${[...inputs].length}` }) });
  expect(said('complies ').chains[1]).toMatchObject({ rejudgedVerdict: 'complies 12', verdictDiffers: true });
  expect(said('x').verdictDiffers).toBe(true);
  expect(inspectRecord(folder, { rejudge: () => ({ verdict: 'cannot-be-judged' }) }).verdictDiffers).toBe(false);
  const bed = bench();
  bed.store.commit([opened(0), note(1, 'x')]);
  expect(inspectRecord(bed.folder, { rejudge: () => ({ verdict: 'complies' }) }).verdictDiffers).toBe(false);
  bed.store.commit([verdict(2, 'complies')]);
  expect(inspectRecord(bed.folder, { rejudge: () => ({ verdict: 'does-not-comply' }) }).verdictDiffers).toBe(true);
});

test('an altered chain is not judged anew: there is nothing to compare', () => {
  const folder = record();
  tamper(folder, sql("DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5"));
  let judged = 0;
  inspectRecord(folder, {
    rejudge: () => {
      judged += 1;
      return { verdict: 'complies' };
    },
  });
  expect(judged).toBe(1);
});

test('an inspection beside a running writer sees the record as it stood', () => {
  const bed = bench();
  bed.store.commit(shortJob());
  const seen = inspectRecord(bed.folder, {
    rejudge: (inputs) => {
      bed.store.commit([note(20, 'meanwhile'), scanItem(21), note(22, 'and more', 'joint-9')]);
      return { verdict: [...inputs].length > 0 ? 'cannot-be-judged' : '' };
    },
  });
  expect(seen.ok).toBe(true);
  expect(seen.chains.map((chain) => chain.chain)).toEqual(['station', 'joint-1']);
});
