/** The examples of FORMAT.md of a job that is kept from its logs are made again. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { decodeCanonical, encodeCanonical } from '../../../server/ledger/canonical.ts';
import { importedItem, inputOf } from '../../../server/ledger/item.ts';
import { instant } from '../../../server/measure/quantity.ts';
import type { ImportedAct, ImportedFile } from '../../../server/weld/imported.ts';

const page = readFileSync(new URL('../../../server/record/FORMAT.md', import.meta.url), 'utf8');
const example = (name: string): string =>
  new RegExp(`^\`\`\`example ${name}\\n(.*)\\n\`\`\`$`, 'm').exec(page)?.[1] ?? '';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

test.each(['imported act', 'imported file'])('the %s of the page is what is recorded of a log that is kept', (name) => {
  const body = decodeCanonical(bytesOf(example(name))) as unknown as ImportedAct | ImportedFile;
  const { loggedAt } = body;
  const input: Parameters<typeof importedItem>[3] =
    body.kind === 'imported act'
      ? {
          type: 'act',
          at: loggedAt,
          who: body.who,
          ...(body.role === undefined ? {} : { role: body.role }),
          act: body.act,
        }
      : { type: 'station', at: loggedAt, event: body };
  const item = importedItem('beam-7', instant(1772500000000), { who: 'Runa Teld', role: 'inspector' }, input);
  expect([item.who, item.at, textOf(encodeCanonical(item.body))]).toEqual(['Runa Teld', 1772500000000, example(name)]);
  // The judge takes it in by the time of the log, and knows who did it there.
  expect(inputOf(item)).toEqual(input);
});
