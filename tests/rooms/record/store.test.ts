/** Commit, seal, read: the order in a chain is the order of arrival, and everything comes back. */
import { expect, test } from 'vitest';
import { sha256Hex } from '../../../server/ledger/hash.ts';
import type { CommittedItem, Item } from '../../../server/ledger/item.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { RecordStore } from '../../../server/record/store.ts';
import type { Input } from '../../../server/weld/entry.ts';
import { act, at, bench, inputsOf, note, opened, scanItem, shortJob, verdict } from '../../support/record.ts';

const tail = (store: Pick<RecordStore, 'after'>, chain?: string): readonly CommittedItem[] =>
  store.after(0, { limit: 5000, ...(chain === undefined ? {} : { chain }) });
const stamps = (inputs: readonly Input[]): (number | string)[] =>
  inputs.map((input) =>
    input.type === 'scan' ? input.scan.sequence : input.type === 'act' ? input.act.kind : input.event.kind,
  );

test('positions count on over all chains; heads are those of the chains written to', () => {
  const { store } = bench();
  const first = store.commit([opened(0), scanItem(1), scanItem(1, 'joint-2'), note(2, 'x', 'joint-2')]);
  expect(first.items.map((item) => [item.position, item.chain, item.type])).toEqual([
    [1, 'joint-1', 'entry'],
    [2, 'joint-1', 'scan'],
    [3, 'joint-2', 'scan'],
    [4, 'joint-2', 'entry'],
  ]);
  expect(first.position).toBe(4);
  expect(first.heads).toEqual([store.head('joint-1'), store.head('joint-2')]);
  expect(store.head('joint-1')).toMatchObject({ seq: 1, position: 2, open: true, journalled: 1 });
  expect(store.head('joint-2')).toMatchObject({ seq: 2, position: 4, open: false, journalled: 0 });
  expect(store.commit([]).position).toBe(4);
});

test('an entry first seals the scans that came before it', () => {
  const { store } = bench();
  store.commit(shortJob());
  expect(stamps(inputsOf(store))).toEqual(['opened', 1, 2, 3, 'heat', 5, 6, 7, 8, 'note', 10, 'close']);
  expect([...store.entries('joint-1')].map((entry) => [entry.seq, entry.kind])).toEqual([
    [1, 'opened'],
    [3, 'heat'],
    [5, 'note'],
    [7, 'close'],
    [8, 'verdict'],
  ]);
  expect([...store.conclusions('joint-1')].map((entry) => entry.body)).toEqual([
    { kind: 'verdict', verdict: 'cannot-be-judged' },
  ]);
});

test('what was committed is read back the same, sealed, journalled, and after reopening', () => {
  const bed = bench();
  const job: Item[] = [...shortJob(), scanItem(12), scanItem(13)];
  const kept = bed.store.commit(job).items;
  expect(kept.map(({ position: _, ...item }) => ('seq' in item ? { ...item, seq: 0, hash: '' } : item))).toEqual(
    job.map((item) => (item.type === 'entry' ? { ...item, seq: 0, hash: '' } : item)),
  );
  expect(tail(bed.store)).toEqual(kept);
  bed.store.sealDue(at(13_000 + limits.sealAfterMilliseconds));
  expect(bed.store.head('joint-1').journalled).toBe(0);
  expect(tail(bed.store)).toEqual(kept);
  bed.reopen();
  expect(tail(bed.store)).toEqual(kept);
});

test('fractions in an act are exact; a conclusion keeps nine decimals', () => {
  const { store } = bench();
  const reading = { kind: 'contact reading', celsius: 0.1 + 0.2, instrument: 'I-1', use: 'zone' } as const;
  const place = { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 75 } as const;
  store.commit([act(1, { ...reading, place }), { ...verdict(2, 'x'), body: { ratio: 1 / 3, whole: 7 } }]);
  const [input] = inputsOf(store);
  expect(input?.type === 'act' && input.act.kind === 'contact reading' && input.act.celsius).toBe(0.1 + 0.2);
  expect([...store.conclusions('joint-1')][0]?.body).toEqual({ ratio: 0.333333333, whole: 7 });
});

test('scans are sealed once the oldest has waited, not before', () => {
  const { store } = bench();
  store.commit([scanItem(1), scanItem(2)]);
  expect(store.sealDue(at(1000 + limits.sealAfterMilliseconds - 1))).toEqual({ sealed: 0, awake: 0 });
  expect(store.sealDue(at(1000 + limits.sealAfterMilliseconds))).toEqual({ sealed: 1, awake: 0 });
  expect(store.head('joint-1')).toMatchObject({ seq: 1, journalled: 0 });
});

test('an open joint without scans gets an empty block each minute; one that is closed, or was never opened, none', () => {
  const { store } = bench();
  store.commit([opened(0), note(0, 'never opened', 'joint-2')]);
  const minute = limits.sealAfterMilliseconds;
  const counts = [minute - 1, minute, minute + 1000, 2 * minute, 3 * minute].map(
    (time) => store.sealDue(at(time)).awake,
  );
  expect(counts).toEqual([0, 1, 0, 1, 1]);
  expect(store.head('joint-1').seq).toBe(4);
  store.commit([act(181, { kind: 'close' })]);
  expect(store.sealDue(at(10 * minute)).awake).toBe(0);
});

test('a wall clock that steps back does not stop the sealing', () => {
  const { store } = bench();
  store.commit([opened(0), scanItem(1)]);
  expect(store.sealDue(at(-limits.sealAfterMilliseconds)).sealed).toBe(1);
});

test('the station notes the heads of the joints, at most once a minute and only those that moved', () => {
  const bed = bench();
  bed.store.commit([note(0, 'x'), note(0, 'x', 'joint-2')]);
  bed.store.sealDue(at(1000));
  bed.store.commit([note(2, 'y')]);
  bed.store.sealDue(at(3000));
  expect(bed.store.head('station').seq).toBe(2);
  bed.store.sealDue(at(1000 + limits.sealAfterMilliseconds));
  expect(bed.store.head('station').seq).toBe(3);
  bed.store.sealDue(at(9 * limits.sealAfterMilliseconds));
  expect(bed.store.head('station').seq).toBe(3);
  bed.store.commit([note(9, 'z')]);
  bed.reopen();
  expect(bed.store.head('station').seq).toBe(4);
});

test('another program is noted, the same one is not', () => {
  const bed = bench();
  bed.reopen();
  expect(bed.store.head('station').seq).toBe(1);
});

test('listeners hear every commit after it is kept, in order, until they leave', () => {
  const { store } = bench();
  const heard: number[] = [];
  const leave = store.onCommit((items, position) => {
    expect(store.position()).toBe(position);
    heard.push(...items.map((item) => item.position));
  });
  store.commit([opened(0), scanItem(1)]);
  store.commit([scanItem(2)]);
  store.sealDue(at(5 * limits.sealAfterMilliseconds));
  leave();
  store.commit([scanItem(3)]);
  expect(heard).toEqual([1, 2, 3]);
});

test('a listener may not write: the order of what the others hear would be lost', () => {
  const { store } = bench();
  let refused: unknown;
  store.onCommit(() => {
    try {
      store.commit([note(2, 'from within')]);
    } catch (error) {
      refused = error;
    }
  });
  store.commit([note(1, 'x')]);
  expect(String(refused)).toContain('may not write');
  expect(store.position()).toBe(1);
});

test('an item that cannot be recorded takes nothing of its commit with it', () => {
  const { store } = bench();
  const heard: unknown[] = [];
  store.onCommit((items) => heard.push(items));
  const bad: Item[] = [scanItem(1), { ...note(2, 'x'), body: { kind: 'note', text: 'x', at: Number.NaN } }];
  expect(() => store.commit(bad)).toThrow('body.at: NaN');
  expect(() => store.commit([opened(0, 'station')])).toThrow('a chain of the station itself');
  expect(store.position()).toBe(0);
  expect(heard).toEqual([]);
  expect(store.commit([scanItem(1)]).position).toBe(1);
});

test('a commit is bounded', () => {
  const { store } = bench();
  const many = Array.from({ length: limits.commitItemsMaximum + 1 }, () => note(1, 'x'));
  expect(() => store.commit(many)).toThrow('at most 20000');
}, 60_000);

test('a block is bounded: the chain seals itself at the mark, and nothing is lost', () => {
  const { store } = bench();
  const many = Array.from({ length: limits.scansPerBlockMaximum }, (_, n) => scanItem(n, 'joint-1', { values: [] }));
  store.commit(many);
  expect(store.head('joint-1')).toMatchObject({ seq: 1, journalled: 0 });
  store.commit([scanItem(1)]);
  expect(store.head('joint-1')).toMatchObject({ seq: 1, journalled: 1 });
  expect(inputsOf(store)).toHaveLength(limits.scansPerBlockMaximum + 1);
}, 60_000);

test('a journal is bounded in bytes as well', () => {
  const { store } = bench();
  const long = (n: number): Item => {
    const raw = { form: 'text', text: `${n} ${'x'.repeat(900_000)}` } as const;
    return scanItem(n, 'joint-1', { values: [{ probe: 'A1', quality: 'out of range', raw }] });
  };
  const enough = Math.ceil(limits.journalBytesMaximum / 900_000);
  for (let n = 1; n < enough; n += 1) store.commit([long(n)]);
  expect(store.head('joint-1')).toMatchObject({ seq: 0, journalled: enough - 1 });
  store.commit([long(enough)]);
  expect(store.head('joint-1')).toMatchObject({ seq: 1, journalled: 0 });
}, 60_000);

test('the tail is asked in pages, of one chain or of all', () => {
  const { store } = bench();
  const items = [1, 2, 3, 4, 5, 6].map((n) => scanItem(n, n % 2 === 0 ? 'joint-1' : 'joint-2'));
  store.commit([...items, note(7, 'x'), scanItem(8, 'joint-2')]);
  const positions = (found: readonly CommittedItem[]): number[] => found.map((item) => item.position);
  expect(positions(store.after(0, { limit: 3 }))).toEqual([1, 2, 3]);
  expect(positions(store.after(3, { limit: 3 }))).toEqual([4, 5, 6]);
  expect(positions(store.after(2, { limit: 9, chain: 'joint-1' }))).toEqual([4, 6, 7]);
  expect(positions(store.after(8, { limit: 9 }))).toEqual([]);
  expect(positions(store.after(0, { limit: 9, chain: 'nowhere' }))).toEqual([]);
});

test('one answer of the tail is bounded', () => {
  const { store } = bench();
  store.commit(Array.from({ length: limits.tailItemsMaximum + 1 }, (_, n) => scanItem(n, 'j', { values: [] })));
  expect(store.after(0, { limit: 1_000_000 })).toHaveLength(limits.tailItemsMaximum);
}, 60_000);

test('reading goes on over a sealing and a commit in its midst, without a hole and without a repeat', () => {
  const { store } = bench();
  store.commit([opened(0), scanItem(1), scanItem(2), scanItem(3)]);
  const seen: (number | string)[] = [];
  for (const input of store.inputs('joint-1')) {
    seen.push(...stamps([input]));
    if (seen.length === 3) store.commit([note(4, 'seals'), scanItem(5)]);
    if (seen.length === 6) store.commit([scanItem(6), note(7, 'seals again')]);
  }
  expect(seen).toEqual(['opened', 1, 2, 3, 'note', 5, 6, 'note']);
});

test('courses between two times, whatever they are in, hold what the scans hold', () => {
  const { store } = bench();
  store.commit([scanItem(1), scanItem(2), note(3, 'x'), scanItem(4), scanItem(5), note(6, 'x'), scanItem(7)]);
  store.commit([scanItem(3, 'joint-1', { late: true, arrivedAt: at(7500) })]);
  const wanted = [...store.inputs('joint-1')].flatMap((input) =>
    input.type === 'scan'
      ? input.scan.values.map((value) => [value.probe, input.scan.measuredAt, value.temperature] as const)
      : [],
  );
  const found = (from: number, to: number) =>
    [...store.coursesBetween('joint-1', at(from), at(to))].flatMap(({ probe, measuredAt, temperatures }) =>
      measuredAt.map((time, index) => [probe, time, temperatures[index]] as const),
    );
  const inOrder = (rows: readonly (readonly [string, number, number | undefined])[]): string[] =>
    rows.map((row) => row.join(' ')).sort();
  expect(wanted.length).toBeGreaterThan(0);
  expect(inOrder(found(0, 99_000))).toEqual(inOrder(wanted));
  const inside = wanted.filter(([, time]) => time >= at(6000));
  expect(inOrder(found(6000, 99_000))).toEqual(expect.arrayContaining(inOrder(inside)));
  expect(found(90_000, 99_000)).toEqual([]);
});

test('documents are kept once, by their hash, and within bounds', () => {
  const { store } = bench();
  const bytes = new Uint8Array([0xff, 0xd8, 1, 2, 3]);
  const name = store.putDocument(bytes, 'image/jpeg');
  expect(name).toBe(sha256Hex(bytes));
  expect(store.putDocument(bytes, 'image/png')).toBe(name);
  expect(store.document(name)).toEqual({ sha256: name, mediaType: 'image/jpeg', bytes });
  expect(store.document('0'.repeat(64))).toBeUndefined();
  expect(() => store.putDocument(new Uint8Array(0), 'image/png')).toThrow('empty');
  expect(() => store.putDocument(bytes, '')).toThrow('media type');
  const greatest = new Uint8Array(limits.documentMaximum + 1);
  expect(() => store.putDocument(greatest, 'image/png')).toThrow('at most 15000000');
  expect(store.putDocument(greatest.subarray(1), 'image/png')).toHaveLength(64);
}, 60_000);

test('an unknown chain has an empty head', () => {
  const { store } = bench();
  expect(store.head('nowhere')).toEqual({
    chain: 'nowhere',
    seq: 0,
    hash: '0'.repeat(64),
    position: 0,
    open: false,
    journalled: 0,
  });
  expect(inputsOf(store, 'nowhere')).toEqual([]);
  expect(store.chains().map((head) => head.chain)).toEqual(['station']);
});

test('very many heads are noted in several entries', () => {
  const bed = bench();
  const count = limits.headsPerEntryMaximum + 1;
  bed.store.commit(Array.from({ length: count }, (_, n) => note(1, 'x', `joint-${n}`)));
  bed.reopen();
  expect(bed.store.head('station').seq).toBe(3);
}, 60_000);
