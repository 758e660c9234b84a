/** Scans as bytes: nothing lost, and bytes that do not fit together are refused. */
import { describe, expect, test } from 'vitest';
import { CanonicalFailure } from '../../../server/ledger/canonical.ts';
import { decodeScans } from '../../../server/ledger/scans-read.ts';
import { encodeScans } from '../../../server/ledger/scans-write.ts';
import { limits } from '../../../server/measure/limits.ts';
import { qualities, type Scan, type ScanValue } from '../../../server/weld/scan.ts';
import { at, scan, value } from '../../support/record.ts';

const through = (scans: readonly Scan[]): readonly Scan[] => decodeScans(encodeScans(scans), scans.length);

test('every quality and every form of a raw number comes back as it was', () => {
  const values: ScanValue[] = [
    value('good', 150_123),
    ...qualities.slice(1).map((quality) => ({ probe: quality, quality, raw: { form: 'none' } }) as ScanValue),
    {
      probe: 'own',
      quality: 'good',
      temperature: -40_000,
      raw: { form: 'temperature', reported: -40_000 },
    } as ScanValue,
    { probe: 'log', quality: 'out of range', raw: { form: 'text', text: '#1,7e9 ' } },
    {
      probe: 'flagged',
      quality: 'open',
      raw: { form: 'voltage', deciMicrovolts: -5, coldJunction: 99_000 },
    } as ScanValue,
  ];
  const scans = [scan(1, { values }), scan(2, { values: values.toReversed(), late: true, inputs: 255, boot: 4 })];
  expect(through(scans)).toStrictEqual(scans);
});

test('boards that speak by turns, late scans, a change of probes: the order is kept', () => {
  const scans = [
    scan(1),
    scan(1, { board: 'board-2', values: [value('B1', 90_000)] }),
    scan(2),
    scan(0, { late: true, arrivedAt: at(2100) }),
    scan(2, { board: 'board-2', values: [value('B1', 90_100)] }),
    scan(3, { values: [value('A1', 1)] }),
    scan(4, { values: [] }),
  ];
  expect(through(scans)).toStrictEqual(scans);
});

test('the columns pack: an hour of sixteen steady probes takes a few bytes a scan', () => {
  const probes = Array.from({ length: 16 }, (_, index) => `P${index}`);
  const hour = Array.from({ length: 3600 }, (_, n) =>
    scan(n, { values: probes.map((probe) => value(probe, 150_000)) }),
  );
  expect(encodeScans(hour).length / (3600 * 16)).toBeLessThan(10);
});

describe('refused when writing', () => {
  test.each<[string, Partial<Scan>]>([
    ['a temperature without a good reading', { values: [{ ...value('A1', 1), quality: 'open' }] }],
    ['a good reading without a temperature', { values: [{ probe: 'A1', quality: 'good', raw: { form: 'none' } }] }],
    ['a fraction', { ticks: 0.5 }],
    ['not a number', { ticks: Number.NaN }],
    ['a number too great to be exact', { ticks: 2 ** 53 }],
    ['a negative boot', { boot: -1 }],
  ])('%s', (_, changes) => {
    expect(() => encodeScans([scan(1, changes)])).toThrow(CanonicalFailure);
  });
  test('more probes than a joint has, more scans than a block holds', () => {
    const values = Array.from({ length: limits.probesMaximum + 1 }, (_, index) => value(`P${index}`, 0));
    expect(() => encodeScans([scan(1, { values })])).toThrow('at most 64');
    expect(through([scan(1, { values: values.slice(1) })])[0]!.values).toHaveLength(limits.probesMaximum);
    const one = scan(1, { values: [] });
    expect(() => encodeScans(Array.from({ length: limits.scansPerBlockMaximum + 1 }, () => one))).toThrow(
      'at most 20000',
    );
  });
});

describe('refused when reading', () => {
  const text = new TextDecoder().decode(encodeScans([scan(1), scan(2)]));
  const changed = (from: string, to: string): Uint8Array => {
    expect(text).toContain(from);
    return new TextEncoder().encode(text.replace(from, to));
  };
  test.each([
    ['a newer format', '"format":1', '"format":2'],
    ['a group that is not there', '"order":[0,2]', '"order":[1,2]'],
    ['another number of scans', '"order":[0,2]', '"order":[0,3]'],
    ['runs that could be shorter', '"order":[0,2]', '"order":[0,1,0,1]'],
    ['a run of nothing', '"order":[0,2]', '"order":[0,0,0,2]'],
    ['an unfinished run', '"order":[0,2]', '"order":[0,2,1]'],
    ['a column too short', '"ticks":[6000,1000]', '"ticks":[6000]'],
    ['a column too long', '"sequence":[1,1]', '"sequence":[1,1,1]'],
    ['a step out of all bounds', '"sequence":[1,1]', '"sequence":[9007199254740991,1]'],
    ['a quality that is none', '"quality":[0,2]', '"quality":[7,2]'],
    ['a form that is none', '"form":[0,2]', '"form":[4,2]'],
    ['a temperature missing', '"temperature":[150001,1]', '"temperature":[150001]'],
    ['a temperature too many', '"temperature":[150001,1]', '"temperature":[150001,1,1]'],
    ['a voltage missing', '"voltage":[60000,1]', '"voltage":[60000]'],
    ['a text too many', '"text":[]', '"text":["x"]'],
    ['no list', '"probes":[', '"probes":{"a":['],
    ['no board', '"board":"board-1"', '"board":1'],
  ])('%s', (_, from, to) => {
    expect(() => decodeScans(changed(from, to), 2)).toThrow(CanonicalFailure);
  });
  test('a block that claims more scans than any holds', () => {
    expect(() => decodeScans(encodeScans([scan(1)]), limits.scansPerBlockMaximum + 1)).toThrow(
      'more than a block holds',
    );
  });
});
