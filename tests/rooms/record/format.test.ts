/**
 * FORMAT.md is what the program does: its examples are made again here, their hashes are worked out with
 * another implementation of SHA-256, and a record is read as the page says, by SQL and by hand.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ambientOutcomes } from '../../../server/judgement/ambient/touch.ts';
import { openBlock, sealBlock } from '../../../server/ledger/block.ts';
import { decodeCanonical, encodeCanonical } from '../../../server/ledger/canonical.ts';
import { linkEntry, readEnvelopeStrictly } from '../../../server/ledger/envelope.ts';
import { noHash } from '../../../server/ledger/hash.ts';
import { inputOf, itemOf } from '../../../server/ledger/item.ts';
import { bindingFault } from '../../../server/ledger/procedures.ts';
import { decodeScans } from '../../../server/ledger/scans-read.ts';
import { encodeScans } from '../../../server/ledger/scans-write.ts';
import { instant } from '../../../server/measure/quantity.ts';
import { entryWords, packEntry } from '../../../server/record/packed-entry.ts';
import { decodePositions, encodePositions } from '../../../server/record/positions.ts';
import { applicationId, recordFormat } from '../../../server/record/schema.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { actSchema, type StationEvent } from '../../../server/weld/entry.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { procedureActSchema } from '../../../server/weld/procedure-act.ts';
import { asBound, carriedRevision } from '../../../server/weld/procedure-revision.ts';
import { qualities, type Scan, type ScanValue } from '../../../server/weld/scan.ts';
import { holeText } from '../../../server/wording/hole.ts';
import { entryByHand, example, scansByHand } from '../../support/by-hand.ts';
import { packedExample } from '../../support/packed-example.ts';
import { plainJoint } from '../../support/plain-joint.ts';
import { at, bench, shortJob } from '../../support/record.ts';

const page = readFileSync(new URL('../../../server/record/FORMAT.md', import.meta.url), 'utf8');
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const noon = at(0);
const volts = (probe: string, temperature: number, deciMicrovolts: number): ScanValue =>
  ({
    probe,
    quality: 'good',
    temperature,
    raw: { form: 'voltage', deciMicrovolts, coldJunction: 23_500 },
  }) as ScanValue;
const common = { board: 'K2', boot: 7, late: false };
const scans: readonly Scan[] = [
  {
    ...common,
    sequence: 410,
    ticks: 410_250,
    measuredAt: at(-40),
    arrivedAt: noon,
    inputs: 0,
    values: [volts('A1', 150_125, 52_100), volts('A2', 149_800, 51_950)],
  },
  {
    ...common,
    sequence: 411,
    ticks: 411_250,
    measuredAt: at(960),
    arrivedAt: at(1000),
    inputs: 1,
    values: [volts('A1', 150_250, 52_155), { probe: 'A2', quality: 'open', raw: { form: 'none' } }],
  },
];

test('the scans of the page', () => {
  expect(textOf(encodeScans(scans))).toBe(example('scans'));
  expect(decodeScans(bytesOf(example('scans')), 2)).toStrictEqual(scans);
});

test('the three entries of the page, each with the hash of the one before it', () => {
  const body = { kind: 'contact reading', celsius: 151.5, instrument: '#4', use: 'zone' };
  const beam = { chain: 'beam-7', who: 'station', class: 'block', kind: 'block' } as const;
  const entries = [
    {
      chain: 'beam-7',
      seq: 1,
      at: at(-5000),
      who: 'R. Ahlgren',
      role: 'welder',
      class: 'input',
      kind: body.kind,
      body,
    } as const,
    { ...beam, seq: 2, at: at(60_000), body: sealBlock(scans).body },
    { ...beam, seq: 3, at: at(120_000), body: sealBlock([]).body },
  ];
  let previous = noHash;
  entries.forEach((entry, index) => {
    const written = example(`entry ${index + 1}`);
    expect(textOf(linkEntry(previous, entry).bytes)).toBe(written);
    expect(readEnvelopeStrictly(bytesOf(written))).toEqual({ ...entry, format: 1, previous });
    previous = sha256(bytesOf(written));
    expect(previous).toBe(example(`hash ${index + 1}`));
  });
  const block = JSON.parse(example('entry 2')).body;
  expect([block.bytes, block.scans]).toEqual([example('scans').length, sha256(bytesOf(example('scans')))]);
});

test('the entry of the page by somebody who signed on', () => {
  const entry = {
    chain: 'beam-7',
    seq: 1,
    at: noon,
    who: 'Imke Sorel',
    role: 'heater operator',
    person: 'p-3f9a61c2',
    proof: 'PIN',
    class: 'input',
    kind: 'note',
    body: { kind: 'note', text: 'Far side wrapped.' },
  } as const;
  expect(textOf(linkEntry(noHash, entry).bytes)).toBe(example('entry signed'));
  expect(readEnvelopeStrictly(bytesOf(example('entry signed')))).toMatchObject(entry);
});

test.each(['hand-over', 'pass start'])('the %s of the page is an act', (kind) => {
  const act = actSchema.parse(decodeCanonical(bytesOf(example(kind))));
  expect([act.kind, textOf(encodeCanonical(act))]).toEqual([kind, example(kind)]);
});

test('the check at ambient of the page is an act, and says what the page says of it', () => {
  const written = bytesOf(example('ambient check'));
  const act = actSchema.parse(decodeCanonical(written));
  expect(textOf(encodeCanonical(act))).toBe(example('ambient check'));
  if (act.kind !== 'ambient check') throw new Error('another act');
  expect(ambientOutcomes(act).probes[0]).toMatchObject({ probe: 'T1', outcome: 'another moves', other: 'T2' });
});

test.each(['pass end', 'correct pass', 'break', 'break inspected', 'check answered', 'point released'])(
  'the example of %s is an act as it is recorded',
  (name) => {
    const act = actSchema.parse(decodeCanonical(bytesOf(example(name))));
    expect(textOf(encodeCanonical(act))).toBe(example(name));
  },
);

test.each(['moved', 'twin', 'suspended'])('the example of %s is what the station records', (name) => {
  const event = decodeCanonical(bytesOf(example(name))) as unknown as StationEvent;
  const item = itemOf('beam-7', { type: 'station', at: instant(1772431200000), event });
  expect(item.type === 'entry' && textOf(encodeCanonical(item.body))).toBe(example(name));
  expect(inputOf(item)).toMatchObject({ type: 'station', event: { kind: event.kind } });
});

test('the example of a hole is what the station records and says', () => {
  const { kind, ...rest } = decodeCanonical(bytesOf(example('hole'))) as unknown as StationEvent & { kind: 'hole' };
  const item = itemOf('beam-7', { type: 'station', at: instant(1772431200000), event: { kind, ...rest } });
  expect(item.type === 'entry' && textOf(encodeCanonical(item.body))).toBe(example('hole'));
  expect(inputOf(item)).toMatchObject({ type: 'station', event: { kind: 'hole', came: 10 } });
  expect(holeText({ kind, ...rest })).toBe(
    '10 readings of board PB-0007 came late, sent again by the board (sequence 17 to 26)',
  );
  const lost = { ...rest, kind, came: 8, lost: 2, fate: 'no longer kept' } as const;
  expect(holeText(lost)).toBe(
    '8 readings of board PB-0007 came late, sent again by the board; 2 readings of board PB-0007 are lost: the board does not keep them any more (sequence 17 to 26)',
  );
  expect(holeText({ kind, board: 'PB-0007', boot: 12, from: 27, came: 0, fate: 'board started again' })).toBe(
    'Board PB-0007 started again: what it measured after sequence 26, until it was up again, is lost',
  );
});

test('a procedure of the page has the hash that it gives, and the joint that is bound to it carries the same', () => {
  const written = bytesOf(example('procedure'));
  const act = procedureActSchema.parse(decodeCanonical(written));
  expect(textOf(encodeCanonical(act))).toBe(example('procedure'));
  if (act.kind !== 'procedure') throw new Error('another act');
  expect(sha256(encodeCanonical(act.revision))).toBe(act.sha256);
  expect(textOf(encodeCanonical(asBound(act.revision, act.sha256)))).toBe(example('bound joint'));
  const joint = plainJoint(decodeCanonical(bytesOf(example('bound joint'))) as Partial<Joint>);
  expect(carriedRevision(joint)).toEqual(act.revision);
  expect(bindingFault(joint)).toBeUndefined();
});

test('the positions of the page', () => {
  expect(textOf(encodePositions([11, 12, 14, 15]))).toBe(example('positions'));
  expect(decodePositions(bytesOf(example('positions')), 4)).toEqual([11, 12, 14, 15]);
  expect(() => encodePositions([2, 2])).toThrow('do not increase');
  expect(() => decodePositions(bytesOf('[0,2]'), 2)).toThrow('do not increase');
});

test('the numbers of the page are those of the program', () => {
  expect(page).toContain(`\`application_id\` ${applicationId} `);
  expect(page).toContain(`Format ${recordFormat}.`);
  expect(page).toContain(qualities.map((quality, index) => `${index} ${quality}`).join(', '));
});

test('a record read by SQL and by hand, without the code that wrote it', () => {
  const { folder, store } = bench();
  const kept = store.commit(shortJob()).items;
  store.close();
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'read');
  let previous = '0'.repeat(64);
  const read: [position: number, what: unknown][] = [];
  for (const row of raw.all<{ seq: number; position: number; bytes: Uint8Array; hash: string }>(
    "SELECT * FROM entries WHERE chain = 'joint-1' ORDER BY seq",
  )) {
    const canonical = entryByHand(row.bytes);
    const entry = JSON.parse(textOf(canonical));
    expect([sha256(canonical), entry.previous, entry.seq]).toEqual([row.hash, previous, row.seq]);
    previous = row.hash;
    if (entry.class !== 'block') {
      read.push([row.position, entry.kind]);
      continue;
    }
    const block = raw.get<{ packed: Uint8Array; positions: Uint8Array }>(
      "SELECT * FROM blocks WHERE chain = 'joint-1' AND seq = ?",
      row.seq,
    )!;
    const bytes = scansByHand(block.packed);
    expect([sha256(bytes), bytes.length]).toEqual([entry.body.scans, entry.body.bytes]);
    const [group] = JSON.parse(textOf(bytes)).groups;
    const runs: number[] = JSON.parse(textOf(block.positions));
    const steps = runs.flatMap((step, index) => (index % 2 === 0 ? Array(runs[index + 1]!).fill(step) : []));
    const summed = (column: number[]): number[] =>
      column.map((_, end) => column.slice(0, end + 1).reduce((a, b) => a + b));
    const sequence = summed(group.sequence);
    const first = summed(group.probes[0].temperature);
    summed(steps).forEach((position, index) => {
      read.push([position, [sequence[index], first[index]]]);
    });
  }
  raw.close();
  expect(read).toEqual(
    kept.map((item) => [
      item.position,
      item.type === 'entry' ? item.kind : [item.scan.sequence, item.scan.values[0]!.temperature],
    ]),
  );
});

test('packed as the page says, and back by the page alone', () => {
  expect(example('words')).toBe(JSON.stringify(entryWords).slice(1, -1));
  const packedEntry = Buffer.from(example('entry 2 packed'), 'hex');
  expect(Buffer.from(packEntry(bytesOf(example('entry 2')))).equals(packedEntry)).toBe(true);
  expect(textOf(entryByHand(packedEntry))).toBe(example('entry 2'));
  const { body, packed } = sealBlock(packedExample);
  expect(Buffer.from(packed).toString('hex')).toBe(example('scans packed'));
  expect(textOf(scansByHand(packed))).toBe(textOf(encodeScans(packedExample)));
  expect(openBlock(body, packed)).toStrictEqual(packedExample);
});
