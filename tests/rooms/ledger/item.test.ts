/** Inputs of the judge as items of a chain, and back. */
import { expect, test } from 'vitest';
import { inputOf, itemOf } from '../../../server/ledger/item.ts';
import { assertRecordable } from '../../../server/ledger/recordable.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { Input } from '../../../server/weld/entry.ts';
import { at, note, opened, scan, scanItem, verdict } from '../../support/record.ts';

test.each<[string, Input]>([
  ['a scan', { type: 'scan', scan: scan(1) }],
  [
    'an act with a role',
    { type: 'act', at: at(5), who: 'M. Duarte', role: 'inspector', act: { kind: 'heat', state: 'on' } },
  ],
  ['an act without', { type: 'act', at: at(5), who: 'station', act: { kind: 'note', text: 'a person of that name' } }],
  ['what the station says', { type: 'station', at: at(5), event: { kind: 'clock', steppedMilliseconds: -3 } }],
])('%s comes back as it was', (_, input) => {
  expect(inputOf(itemOf('joint-1', input))).toStrictEqual(input);
});

test('a conclusion is no input; an input of an unknown kind is not passed over', () => {
  expect(inputOf(verdict(1, 'complies'))).toBeUndefined();
  expect(() => inputOf({ ...note(1, 'x'), kind: 'weather' })).toThrow(
    '"weather" in joint-1, which this program does not know',
  );
});

test('what the record would refuse can be known before it is judged', () => {
  expect(() => assertRecordable(note(1, 'x'))).not.toThrow();
  expect(() => assertRecordable(scanItem(1))).not.toThrow();
  expect(() =>
    assertRecordable({ ...note(1, 'x'), body: { kind: 'note', text: 'x'.repeat(limits.entryBytesMaximum) } }),
  ).toThrow('at most 4000000');
  expect(() => assertRecordable({ ...note(1, 'x'), body: { celsius: Number.POSITIVE_INFINITY } })).toThrow(
    'body.celsius',
  );
  expect(() => assertRecordable(scanItem(1, ''))).toThrow('chain: 0 characters');
  expect(() => assertRecordable(opened(1, 'station'))).toThrow('a chain of the station itself');
  expect(() => assertRecordable({ ...opened(1), chain: 'Procedures' })).toThrow('a chain of the station itself');
  const words = { form: 'text', text: 'x'.repeat(limits.scanBytesMaximum) } as const;
  expect(() =>
    assertRecordable(scanItem(1, 'j', { values: [{ probe: 'A', quality: 'out of range', raw: words }] })),
  ).toThrow('at most 1000000');
});
