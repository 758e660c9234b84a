/** The folder of a record: never begun by mistake, never written by two, never touched when it is not ours. */
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { instant } from '../../../server/measure/quantity.ts';
import { RecordRefusal } from '../../../server/record/failure.ts';
import { openRecordReadOnly } from '../../../server/record/read.ts';
import { applicationId } from '../../../server/record/schema.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { openRecord } from '../../../server/record/store.ts';
import { bench, note, shortJob, temporaryFolder } from '../../support/record.ts';

const open = (folder: string, begin = false) =>
  openRecord({ folder, begin, program: 'test 1', now: () => instant(1_700_000_000_000) });
const refusal = (work: () => unknown): RecordRefusal => {
  try {
    work();
  } catch (error) {
    if (error instanceof RecordRefusal) return error;
    throw error;
  }
  throw new Error('it was not refused');
};

test('a mistyped folder begins no new history, and leaves no trace', () => {
  const folder = join(temporaryFolder(), 'statoin');
  const refused = refusal(() => open(folder));
  expect(refused.reason).toBe('no record');
  expect(refused.message).toContain(`There is no record in ${folder}. If the folder is mistyped, correct it`);
  expect(existsSync(folder)).toBe(false);
  expect(refusal(() => openRecordReadOnly(folder)).reason).toBe('no record');
  const empty = temporaryFolder();
  expect(refusal(() => open(empty)).reason).toBe('no record');
  expect(readdirSync(empty)).toEqual([]);
});

test('begun when asked, also where folders are missing; then opened without asking', () => {
  const folder = join(temporaryFolder(), 'a', 'b');
  open(folder, true).close();
  const again = open(folder);
  expect(again.head('station')).toMatchObject({ seq: 1, position: 0 });
  again.close();
  open(folder, true).close();
});

test('a second program is refused while the first has it open, and not after', () => {
  const { folder, store } = bench();
  const refused = refusal(() => open(folder));
  expect(refused.reason).toBe('open elsewhere');
  expect(refused.message).toContain('Close that one first');
  store.commit([note(1, 'the first goes on')]);
  store.close();
  open(folder).close();
});

test('a newer format is refused, for writing and for reading, and not changed', () => {
  const { folder, store } = bench();
  store.close();
  const file = join(folder, 'record.sqlite');
  const raw = sqliteDisk.open(file, 'write');
  raw.exec('PRAGMA user_version=2');
  raw.close();
  for (const work of [() => open(folder), () => openRecordReadOnly(folder)]) {
    const refused = refusal(work);
    expect(refused.reason).toBe('newer format');
    expect(refused.message).toContain('has format 2; this program knows formats up to 1. Use a newer version');
  }
});

test("another program's database, and a file that is none, are refused and stay as they are", () => {
  const folder = temporaryFolder();
  const file = join(folder, 'record.sqlite');
  const foreign = sqliteDisk.open(file, 'lock');
  foreign.exec('CREATE TABLE t (a)');
  foreign.close();
  const before = readFileSync(file);
  expect(refusal(() => open(folder, true)).reason).toBe('not a record');
  expect(readFileSync(file)).toEqual(before);
  const junk = temporaryFolder();
  writeFileSync(join(junk, 'record.sqlite'), 'x'.repeat(5000));
  expect(refusal(() => open(junk, true)).message).toContain('is not a record of this program. Nothing was changed');
  expect(readdirSync(junk)).toEqual(['record.sqlite']);
});

test('a beginning that was cut short is begun again, but only when asked', () => {
  const folder = temporaryFolder();
  sqliteDisk.open(join(folder, 'record.sqlite'), 'write').close();
  expect(refusal(() => open(folder)).reason).toBe('no record');
  open(folder, true).close();
  expect(openRecordReadOnly(folder).chains()).toHaveLength(1);
});

test('a folder that cannot be made, or is a file, says what to do', () => {
  const parent = temporaryFolder();
  writeFileSync(join(parent, 'file'), '');
  const refused = refusal(() => open(join(parent, 'file', 'record'), true));
  expect(refused.reason).toBe('not possible');
  expect(refused.message).toContain('Check that the folder is on a local disk');
});

test('every connection that writes commits durably, the second as the first', () => {
  const { folder, store } = bench();
  store.close();
  for (let opening = 0; opening < 3; opening += 1) {
    const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
    expect(raw.get('PRAGMA synchronous')).toEqual({ synchronous: 2 });
    expect(raw.get('PRAGMA journal_mode')).toEqual({ journal_mode: 'wal' });
    expect(raw.get('PRAGMA application_id')).toEqual({ application_id: applicationId });
    raw.close();
  }
});

test('a reader reads beside the writer and cannot write', () => {
  const { folder, store } = bench();
  store.commit(shortJob());
  const reader = openRecordReadOnly(folder);
  expect(reader.position()).toBe(store.position());
  expect([...reader.entries('joint-1')]).toEqual([...store.entries('joint-1')]);
  store.commit([note(20, 'later')]);
  expect(reader.position()).toBe(store.position());
  reader.close();
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'read');
  expect(() => raw.exec('DELETE FROM journal')).toThrow();
  raw.close();
});

test('chained entries, blocks and documents are changed by nobody, not even by mistake', () => {
  const { folder, store } = bench();
  store.commit(shortJob());
  store.putDocument(new Uint8Array([1]), 'image/png');
  store.close();
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
  for (const table of ['entries', 'blocks']) {
    expect(() => raw.exec(`UPDATE ${table} SET seq = seq`)).toThrow('is never changed');
    expect(() => raw.exec(`DELETE FROM ${table}`)).toThrow('is never deleted');
  }
  expect(() => raw.exec("UPDATE documents SET media_type = 'x'")).toThrow('is never changed');
  expect(() => raw.exec('DELETE FROM documents')).toThrow('is never deleted');
  expect(() => raw.run('INSERT INTO journal VALUES (?, ?, ?, ?, ?)', 1, 'c', Number.NaN, 1, 'x')).toThrow('value 3');
  raw.close();
});

test('closing leaves nothing in the write-ahead log', () => {
  const { folder, store } = bench();
  store.commit(shortJob());
  store.close();
  const log = join(folder, 'record.sqlite-wal');
  expect(existsSync(log) ? statSync(log).size : 0).toBe(0);
});
