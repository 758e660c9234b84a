/** What a station is asked with and refuses before it opens or begins anything. */
import { symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { serve } from '../../../server/commands/serve.ts';
import { temporaryFolder } from '../../support/record.ts';

const refusal = async (...args: string[]): Promise<string> => {
  const lines: string[] = [];
  expect(await serve.run(args, { out: () => {}, err: (line) => lines.push(line) })).toBe(3);
  return lines.join('\n');
};

it.skipIf(process.platform === 'win32')('one port under two names is refused, with both', async () => {
  const folder = temporaryFolder();
  const [port, lasting] = [join(folder, 'ttyUSB0'), join(folder, 'by-id')];
  writeFileSync(port, '');
  symlinkSync(port, lasting);
  const data = join(folder, 'record');
  expect(await refusal('--port', port, '--port', lasting, '--data', data)).toContain(
    `${port} and ${lasting} are the same port; name it once`,
  );
  expect(await refusal('--port', port, '--port', port, '--data', data)).toContain(`${port} is given twice`);
});
