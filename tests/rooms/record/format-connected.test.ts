/** What FORMAT.md says of instruments that were connected: its examples are made again here. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { decodeCanonical, encodeCanonical } from '../../../server/ledger/canonical.ts';
import { itemOf } from '../../../server/ledger/item.ts';
import { decodeScans } from '../../../server/ledger/scans-read.ts';
import { encodeScans } from '../../../server/ledger/scans-write.ts';
import { readConnection } from '../../../server/weld/connection/connection.ts';
import type { StationEvent } from '../../../server/weld/entry.ts';
import type { Scan } from '../../../server/weld/scan.ts';
import { at } from '../../support/record.ts';

const page = readFileSync(new URL('../../../server/record/FORMAT.md', import.meta.url), 'utf8');
const example = (name: string): string => new RegExp(`^\`\`\`example ${name}\\n(.*)\\n`, 'm').exec(page)?.[1] ?? '';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const noon = at(0);

test('the scans of a connected instrument, and the event that names it', () => {
  const told: readonly Scan[] = [
    {
      board: 'TC-1',
      boot: 1_772_431_100,
      late: false,
      inputs: 0,
      sequence: 410,
      ticks: 410_250,
      measuredAt: at(-40),
      arrivedAt: noon,
      values: [
        {
          probe: 'A1',
          quality: 'good',
          temperature: 150_100 as never,
          raw: { form: 'temperature', reported: 150_100 as never, said: '05DD' },
        },
      ],
    },
    {
      board: 'TC-1',
      boot: 1_772_431_100,
      late: false,
      inputs: 0,
      sequence: 411,
      ticks: 411_250,
      measuredAt: at(960),
      arrivedAt: at(1000),
      values: [{ probe: 'A1', quality: 'no reading', raw: { form: 'none', said: 'no answer' } }],
    },
  ];
  expect(textOf(encodeScans(told))).toBe(example('told scans'));
  expect(decodeScans(bytesOf(example('told scans')), 2)).toStrictEqual(told);
  const event = decodeCanonical(bytesOf(example('connected board'))) as unknown as StationEvent & { kind: 'board' };
  expect('connection' in readConnection(event.connection)).toBe(true);
  const item = itemOf('plain', { type: 'station', at: noon, event });
  expect(item.type === 'entry' && textOf(encodeCanonical(item.body))).toBe(example('connected board'));
});
