/** Whatever is done to a chain, the first entry that is not as it was written is named. */
import { deflateSync } from 'fflate';
import { expect, test } from 'vitest';
import { type BlockBody, faultOfBlock, openBlock, openBytes, sealBlock } from '../../../server/ledger/block.ts';
import { linkEntry, readEnvelope, readEnvelopeStrictly } from '../../../server/ledger/envelope.ts';
import { noHash } from '../../../server/ledger/hash.ts';
import { packedMark } from '../../../server/ledger/packed-scans.ts';
import { type StoredRow, verifyChain } from '../../../server/ledger/verify.ts';
import { limits } from '../../../server/measure/limits.ts';
import { at, scan } from '../../support/record.ts';

type Row = { -readonly [K in keyof StoredRow]: StoredRow[K] };

/** A chain of notes and blocks; the fourth and eighth entries are blocks of three scans. */
const chain = (length: number, from = 1, previous = noHash, word = 'note'): Row[] => {
  const rows: Row[] = [];
  let last = previous;
  for (let seq = from; seq < from + length; seq += 1) {
    const block = seq % 4 === 0 ? sealBlock([1, 2, 3].map((n) => scan(seq * 10 + n))) : undefined;
    const { bytes, hash } = linkEntry(last, {
      chain: 'joint-1',
      seq,
      at: at(seq * 1000),
      who: 'R. Ahlgren',
      class: block === undefined ? 'input' : 'block',
      kind: block === undefined ? 'note' : 'block',
      body: block?.body ?? { kind: 'note', text: `${word} ${seq}` },
    });
    rows.push(block === undefined ? { seq, bytes, hash } : { seq, bytes, hash, packed: block.packed });
    last = hash;
  }
  return rows;
};
const first = (rows: readonly Row[], known: readonly { seq: number; hash: string }[] = []) =>
  verifyChain('joint-1', rows, { expectedHeads: known }).firstBad;

test('a chain as it was written stands, and its head is told', () => {
  const rows = chain(10);
  const visited: number[] = [];
  const check = verifyChain('joint-1', rows, {
    expectedHeads: [
      { seq: 10, hash: rows[9]!.hash },
      { seq: 3, hash: rows[2]!.hash },
      { seq: 0, hash: noHash },
    ],
    visit: (envelope) => {
      visited.push(envelope.seq);
      return undefined;
    },
  });
  expect(check).toEqual({ chain: 'joint-1', ok: true, entries: 10, head: { seq: 10, hash: rows[9]!.hash } });
  expect(visited).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
});

test('flip: any single bit of any entry', () => {
  for (let seq = 1; seq <= 10; seq += 1) {
    const length = chain(10)[seq - 1]!.bytes.length;
    for (let byte = seq % 7; byte < length; byte += 7) {
      const rows = chain(10);
      const bytes = Uint8Array.from(rows[seq - 1]!.bytes);
      bytes[byte]! ^= 1 << (byte % 8);
      rows[seq - 1]!.bytes = bytes;
      expect(first(rows)).toMatchObject({ seq, why: 'altered' });
    }
  }
});

test('flip: any single byte of packed scans that changes what they say', () => {
  const { packed, bytes } = chain(4)[3]!;
  const { body } = readEnvelope(bytes) as { body: BlockBody };
  const sound = openBytes(body, packed!);
  let changed = 0;
  for (let byte = 0; byte < packed!.length; byte += 1) {
    const rows = chain(10);
    const flipped = Uint8Array.from(packed!);
    flipped[byte]! ^= 0x10;
    rows[3]!.packed = flipped;
    const bad = first(rows);
    // A flipped bit may leave the scans as they were (padding); then nothing is altered.
    if (bad === undefined) expect(openBytes(body, flipped)).toEqual(sound);
    else {
      expect(bad).toMatchObject({ seq: 4, why: 'scans altered' });
      changed += 1;
    }
  }
  expect(changed).toBeGreaterThan(packed!.length * 0.9);
});

test('flip: an entry changed and its hash made to fit', () => {
  const rows = chain(10);
  rows[4] = chain(1, 5, rows[3]!.hash, 'forged')[0]!;
  expect(first(rows)).toMatchObject({ seq: 6, why: 'put in', detail: 'it does not follow entry 5' });
});

test('flip: all rewritten from one entry on shows against a head known from elsewhere', () => {
  const rows = chain(10);
  const forged = [...rows.slice(0, 4), ...chain(6, 5, rows[3]!.hash, 'forged')];
  expect(first(forged)).toBeUndefined();
  expect(first(forged, [{ seq: 7, hash: rows[6]!.hash }])).toMatchObject({ seq: 7, why: 'not the known head' });
});

test('two heads that contradict each other cannot both stand', () => {
  const rows = chain(3);
  expect(
    first(rows, [
      { seq: 2, hash: rows[1]!.hash },
      { seq: 2, hash: noHash },
    ]),
  ).toMatchObject({ seq: 2 });
});

test('delete: one in the middle, also when the rest is numbered anew', () => {
  const rows = chain(10);
  rows.splice(5, 1);
  expect(first(rows)).toMatchObject({ seq: 6, why: 'missing' });
  for (const row of rows.slice(5)) row.seq -= 1;
  expect(first(rows)).toMatchObject({ seq: 6, why: 'moved', detail: 'it was written as entry 7 of joint-1' });
});

test('delete: the scans of a block, and scans put beside an entry that seals none', () => {
  const rows = chain(10);
  const { packed, ...bare } = rows[3]!;
  expect(first([...rows.slice(0, 3), bare, ...rows.slice(4)])).toMatchObject({ seq: 4, why: 'scans altered' });
  rows[4]!.packed = packed!;
  expect(first(rows)).toMatchObject({ seq: 5, why: 'scans altered' });
});

test('swap: two entries, and the scans of two blocks', () => {
  const swapped = chain(10);
  const [a, b] = [swapped[2]!, swapped[6]!];
  swapped[2] = { ...b, seq: 3 };
  swapped[6] = { ...a, seq: 7 };
  expect(first(swapped)).toMatchObject({ seq: 3, why: 'moved', detail: 'it was written as entry 7 of joint-1' });
  const rows = chain(10);
  const [four, eight] = [rows[3]!.packed!, rows[7]!.packed!];
  rows[3]!.packed = eight;
  rows[7]!.packed = four;
  expect(first(rows)).toMatchObject({ seq: 4, why: 'scans altered' });
});

test('swap: an entry of another chain', () => {
  const rows = chain(10);
  const other = linkEntry(rows[2]!.hash, {
    ...readEnvelope(rows[3]!.bytes),
    chain: 'joint-2',
    class: 'input',
    kind: 'note',
  });
  rows[3] = { seq: 4, ...other };
  expect(first(rows)).toMatchObject({ seq: 4, why: 'moved', detail: 'it was written as entry 4 of joint-2' });
});

test('insert: a forged entry, well linked to the one before it, is named by the place that two entries claim', () => {
  const rows = chain(10);
  const forged = chain(1, 6, rows[4]!.hash, 'forged')[0]!;
  const after = rows.slice(5).map((row) => ({ ...row, seq: row.seq + 1 }));
  expect(first([...rows.slice(0, 5), forged, ...after])).toMatchObject({ seq: 6, why: 'put in' });
  expect(first([...rows.slice(0, 6), forged, ...rows.slice(6)])).toMatchObject({ seq: 6, why: 'put in' });
});

test('truncate: shows against a known head, and only against one', () => {
  const rows = chain(10);
  const cut = rows.slice(0, 7);
  expect(first(cut)).toBeUndefined();
  expect(first(cut, [{ seq: 10, hash: rows[9]!.hash }])).toMatchObject({ seq: 8, why: 'cut off' });
  expect(first([], [{ seq: 10, hash: rows[9]!.hash }])).toMatchObject({ seq: 1, why: 'cut off' });
  expect(first(rows.slice(3))).toMatchObject({ seq: 1, why: 'missing' });
});

test('scans compressed anew, by another method, are the same scans', () => {
  const rows = chain(10);
  const { bytes, packed } = rows[3]!;
  const scans = openBytes(readEnvelope(bytes).body as BlockBody, packed!);
  expect(packed![0]).toBe(packedMark);
  rows[3]!.packed = deflateSync(scans, { level: 0 });
  expect(first(rows)).toBeUndefined();
});

test('a block that unpacks to more than it admits to is refused without unpacking it all', () => {
  const { body } = sealBlock([scan(1)]);
  const bomb = deflateSync(new Uint8Array(5_000_000));
  expect(faultOfBlock(body, bomb)).toContain('cannot be read');
  expect(() => openBlock({ ...body, bytes: limits.blockBytesMaximum + 1 } as typeof body, bomb)).toThrow(
    'not a length',
  );
});

test('what a block says of its scans is checked against them', () => {
  const { body, packed } = sealBlock([scan(1), scan(2), scan(0, { late: true, arrivedAt: at(2500) })]);
  expect(body).toMatchObject({
    count: 3,
    measuredFrom: at(-40),
    measuredTo: at(1960),
    arrivedFirst: at(1000),
    arrivedLast: at(2500),
  });
  expect(faultOfBlock(body, packed)).toBeUndefined();
  expect(faultOfBlock({ ...body, measuredTo: at(9999) } as typeof body, packed)).toContain('do not fit');
  expect(faultOfBlock({ ...body, count: 2 } as typeof body, packed)).toContain('cannot be read');
  expect(faultOfBlock({ count: 0 }, packed)).toContain('empty block');
  expect(sealBlock([])).toEqual({ body: { count: 0 }, packed: new Uint8Array(0) });
});

test('an envelope of a newer format, or with fields that are not of this one, is refused', () => {
  const bytes = linkEntry(noHash, {
    chain: 'c',
    seq: 1,
    at: at(0),
    who: 'w',
    class: 'input',
    kind: 'note',
    body: null,
  }).bytes;
  const text = new TextDecoder().decode(bytes);
  const read = (from: string, to: string) => () =>
    readEnvelopeStrictly(new TextEncoder().encode(text.replace(from, to)));
  expect(read('"format":1', '"format":2')).toThrow('this program reads 1');
  expect(read('"seq":1', '"seq":1,"shoe":1')).toThrow('shoe: not a field');
  expect(read('"class":"input"', '"class":"other"')).toThrow('class');
  expect(read('"who":"w"', '"who":7')).toThrow('who: text is missing');
  expect(read(`"at":${at(0)}`, '"at":"x"')).toThrow('at: an integer');
});

test('who, kind and chain have words, and bounded ones', () => {
  const entry = { chain: 'c', seq: 1, at: at(0), who: 'w', class: 'input', kind: 'note', body: null } as const;
  expect(() => linkEntry(noHash, { ...entry, who: '' })).toThrow('who: 0 characters');
  expect(() => linkEntry(noHash, { ...entry, kind: 'k'.repeat(limits.nameMaximum + 1) })).toThrow('kind: 121');
  expect(() => linkEntry(noHash, { ...entry, at: Number.NaN as typeof entry.at })).toThrow('at: not an instant');
});
