/** Readings out of a record into a package and back: only by an entry, all or nothing, and never a silent gap. */
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { linkEntry, readEnvelopeStrictly } from '../../../server/ledger/envelope.ts';
import { removalNamedBy } from '../../../server/ledger/removal-entry.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { inspectPackage } from '../../../server/proof/inspect-package.ts';
import { standingWords } from '../../../server/proof/package-words.ts';
import { mathematics } from '../../../server/record/certificate-signature.ts';
import { createKeyPem, signerOfPem } from '../../../server/record/ed25519.ts';
import { RecordFailure } from '../../../server/record/failure.ts';
import { inspectRecord } from '../../../server/record/inspection.ts';
import { heldIn } from '../../../server/record/packaged.ts';
import { openRecordReadOnly } from '../../../server/record/read.ts';
import { type Fitting, fitOf, readingsFrom } from '../../../server/record/retaining.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { openRecord } from '../../../server/record/store.ts';
import { example } from '../../support/by-hand.ts';
import { faultyDisk } from '../../support/faulty-disk.ts';
import { filesOf, packageOf } from '../../support/package.ts';
import { at, inputsOf, scanItem, shortJob, temporaryFolder } from '../../support/record.ts';
import {
  archived,
  asked,
  by,
  opened,
  putBack,
  reading,
  remove,
  withoutReadings,
} from '../../support/removed-record.ts';

const packageIn = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

test('the entries of FORMAT.md, each linked to the one before it, say what they say', () => {
  const [removed, back] = ['entry readings removed', 'entry readings put back'].map((name) => {
    const envelope = readEnvelopeStrictly(new TextEncoder().encode(example(name)));
    const { format: _, previous, ...entry } = envelope;
    const again = linkEntry(previous, entry);
    expect(new TextDecoder().decode(again.bytes)).toBe(example(name));
    return { told: removalNamedBy(envelope), previous, hash: again.hash };
  });
  expect([removed!.previous, back!.previous]).toEqual([example('hash 3'), removed!.hash]);
  expect(removed!.told).toMatchObject({ kind: 'readings removed', blocks: 1, scans: 2, who: 'Imke Sorel', first: 2 });
  expect(back!.told).toMatchObject({ kind: 'readings put back', blocks: 1, role: 'coordinator', seq: 5 });
});

test('removed, put back and removed again: the same readings, the same verdict, and every step in the chain', () => {
  const { bed, folder, path } = archived();
  const bytes = packageIn(path);
  bed.reopen();
  const whole = inputsOf(bed.store);
  remove(bed.store, bytes);
  expect(() => inputsOf(bed.store)).toThrow(
    /readings of joint-1 are not in this record: removed .* by Imke Sorel, coordinator: ten years are over; the package with the SHA-256 [0-9a-f]{64} holds them.*put them back/,
  );
  expect(() => [...bed.store.coursesBetween('joint-1', at(0), at(20_000))]).toThrow('are not in this record');
  expect(bed.store.after(0, { chain: 'joint-1', limit: 100 }).map(({ type }) => type)).not.toContain('scan');
  expect(bed.store.removed('joint-1')).toMatchObject({ ...by, reason: 'ten years are over', scans: 8, blocks: 3 });
  putBack(bed.store, bytes);
  expect(inputsOf(bed.store)).toStrictEqual(whole);
  expect(bed.store.removed('joint-1')).toBeUndefined();
  remove(bed.store, bytes);
  expect(bed.store.removals('joint-1').map(({ kind, seq }) => [kind, seq])).toEqual([
    ['readings removed', 9],
    ['readings put back', 10],
    ['readings removed', 11],
  ]);
  bed.store.close();
  const seen = inspectRecord(folder);
  expect([seen.ok, seen.chains[1]!.scans, seen.chains[1]!.gaps]).toEqual([true, 8, []]);
});

test('an inspection with the package looks at the readings, and judges again', () => {
  const { folder, path } = withoutReadings();
  const held = opened(packageIn(path));
  const rejudge = (inputs: Iterable<unknown>) => ({ verdict: `${[...inputs].length} inputs` });
  const alone = inspectRecord(folder, { rejudge });
  expect(alone.ok).toBe(true);
  expect(alone.chains[1]!.notRejudged).toContain('are not in this record');
  const given = inspectRecord(folder, { rejudge, readings: heldIn([held]) });
  expect(given.chains[1]).toMatchObject({ ok: true, scans: 8, rejudgedVerdict: '12 inputs' });
  expect(given.chains[1]!.gaps[0]!.gaps.count).toBe(0);
  const others = { packedOf: (_: string, seq: number) => held.packedOf(seq === 2 ? 4 : 2) };
  expect(inspectRecord(folder, { readings: others }).firstBad).toMatchObject({ seq: 2, why: 'scans altered' });
});

test('a record opened with the package gives scans and their temperatures as if they had never gone', () => {
  const { folder, path } = withoutReadings();
  const reader = openRecordReadOnly(folder, sqliteDisk, heldIn([opened(packageIn(path))]));
  const scans = [...reader.inputs('joint-1')].flatMap((input) => (input.type === 'scan' ? [input.scan] : []));
  const courses = [...reader.coursesBetween('joint-1', at(0), at(20_000))];
  reader.close();
  expect(scans).toHaveLength(8);
  expect(courses.flatMap(({ temperatures }) => temperatures).sort()).toEqual(
    scans.flatMap(({ values }) => values.map(({ temperature }) => temperature)).sort(),
  );
});

test('a package that was made afterwards is intact, says that it has no readings, and names the one that has', () => {
  const { pack, path } = withoutReadings();
  const files = filesOf(pack());
  expect(Object.keys(files)).not.toContain('readings.csv');
  const seen = inspectPackage(files, mathematics);
  expect([seen.intact, seen.away?.package]).toEqual([true, opened(packageIn(path)).sha256]);
  expect(standingWords(seen)[0]).toContain('INTACT, AND WITHOUT READINGS');
});

test.each([
  ["UPDATE blocks SET packed = x'' WHERE seq = 2"],
  ["UPDATE blocks SET packed = x'00' WHERE seq = 2"],
  ["UPDATE blocks SET packed = x'', measured_from = 0 WHERE seq = 2"],
  ['DELETE FROM blocks'],
])('the file refuses %s, before a removal and after it', (statement) => {
  const { bed, folder, path } = archived();
  const tries = () => {
    const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
    try {
      raw.exec(statement);
    } finally {
      raw.close();
    }
  };
  expect(tries).toThrow('a block is never');
  bed.reopen();
  remove(bed.store, packageIn(path));
  expect(tries).toThrow('a block is never');
  putBack(bed.store, packageIn(path));
  expect(tries).toThrow('a block is never');
});

describe('refused with what to do next', () => {
  const why = (bytes: Uint8Array, folder: string, way: 'remove' | 'put back' = 'remove', joint?: string) =>
    reading(folder, (reader) => {
      const fit = fitOf(reader, opened(bytes), way, joint);
      return 'refused' in fit ? fit.refused : 'fits';
    });

  test('a joint that is open, and one whose readings go further than the package', () => {
    const open = archived(shortJob().slice(0, -2));
    expect(why(packageIn(open.path), open.folder)).toMatch(/still open.*close it first/);
    const { bed, folder, path } = open;
    bed.reopen();
    bed.store.commit([scanItem(20), ...shortJob().slice(-2)]);
    bed.store.close();
    expect(why(packageIn(path), folder)).toMatch(/older than the newest readings.*Make a new package/);
  });

  test('a package of another joint, of another record, and one that is not signed', () => {
    const { folder, path, signer } = archived();
    expect(why(packageIn(path), folder, 'remove', 'joint-2')).toContain('Give the package of joint-2');
    expect(why(packageOf({ signer, chain: 'joint-9' }), folder)).toContain('no joint joint-9');
    expect(why(packageOf({ signer: signerOfPem(createKeyPem()) }), folder)).toContain(
      'a key that this record does not know',
    );
    expect(why(packageOf({ signer }), folder)).toContain('not those of this record');
    expect(why(packageOf(), folder)).toContain('not signed');
  });

  test('what is removed already, what is not removed, and a package without readings', () => {
    const { folder, path, pack, bed } = withoutReadings();
    expect(why(packageIn(path), folder)).toContain('are not in this record: removed');
    expect(why(pack(), folder, 'put back')).toMatch(/holds none. Take the one with the SHA-256 [0-9a-f]{64}/);
    bed.reopen();
    putBack(bed.store, packageIn(path));
    expect(why(packageIn(path), folder, 'put back')).toContain('nothing to put back');
  });

  test('a joint that changed since it was looked at', () => {
    const { bed, path } = archived();
    bed.reopen();
    const held = opened(packageIn(path));
    const fit = fitOf(bed.store, held, 'remove');
    if ('refused' in fit) throw new Error(fit.refused);
    const asked = { by, at: 0 as Instant, reason: 'twice' };
    bed.store.removeReadings(fit, asked);
    expect(() => bed.store.removeReadings(fit, asked)).toThrow('changed meanwhile');
    expect(() => bed.store.putBackReadings(fit, new Map(), asked)).toThrow('Not all readings');
    expect(bed.store.removals('joint-1')).toHaveLength(1);
  });
});

test.each([
  ['remove', 'dead after'],
  ['put back', 'before'],
] as const)('each step of it fails once (%s, %s): all of it is there or nothing', (way, fault) => {
  const made = way === 'remove' ? archived() : withoutReadings();
  const bytes = packageIn(made.path);
  const fit = reading(made.folder, (reader) => fitOf(reader, opened(bytes), way) as Fitting);
  const readings = reading(made.folder, (reader) => readingsFrom(reader, opened(bytes)));
  for (let step = 1, struck = true; struck; step += 1) {
    const disk = faultyDisk();
    const folder = join(temporaryFolder(), 'station');
    cpSync(made.folder, folder, { recursive: true });
    const open = () =>
      openRecord({ folder, begin: false, program: 'test 1', now: () => at(0), signer: () => made.signer, disk });
    const store = open();
    const before = store.removals('joint-1').length;
    disk.plan(step, fault);
    try {
      if (way === 'remove') store.removeReadings(fit, asked);
      else store.putBackReadings(fit, readings, asked);
    } catch (error) {
      expect(error).toBeInstanceOf(RecordFailure);
    }
    struck = disk.heal();
    store.close();
    const again = open();
    const isDone = again.removals('joint-1').length > before;
    expect(again.removed('joint-1') !== undefined).toBe((way === 'remove') === isDone);
    expect(isDone || struck).toBe(true);
    again.close();
    expect(inspectRecord(folder).firstBad).toBeUndefined();
  }
});
