/** What an inspection finds in a record besides its chains: documents, time, scans not sealed, the verdict. */
import { readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { inspectRecord } from '../../../server/record/inspection.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { plainAnalysis, plainJoint, plainPart } from '../../support/plain-joint.ts';
import { act, at, bench, note, opened, scanItem, shortJob, station, verdict } from '../../support/record.ts';
import { closedRecord, tamper } from '../../support/tampered-record.ts';

test('a sound record: what it holds, and that every chain and document is as it was written', () => {
  const seen = inspectRecord(closedRecord());
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

test('scans not sealed yet: how many, that they can be read, and that none is missing', () => {
  expect(inspectRecord(closedRecord(true))).toMatchObject({ ok: true, chains: [{}, { unsealed: 2 }, {}] });
  for (const [statement, why] of [
    ['DELETE FROM journal WHERE position = (SELECT max(position) FROM journal)', 'missing'],
    ["UPDATE journal SET scan = x'7B7D'", 'scans altered'],
    ['UPDATE journal SET measured_at = 5', 'scans altered'],
  ] as const) {
    const folder = closedRecord(true);
    tamper(folder, (raw) => raw.exec(statement));
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
  const folder = closedRecord();
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
  const folder = closedRecord();
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
  const folder = closedRecord();
  tamper(folder, (raw) => raw.exec("DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5"));
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
