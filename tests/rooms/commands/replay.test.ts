/** `replay` of a capture of an instrument that is no board: what it says with its connection, with a wrong one and without. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { replay } from '../../../server/commands/replay.ts';
import { captureHead, captureLine } from '../../../server/wire/capture.ts';
import { folderFile, linesFile } from '../../support/connection-files.ts';
import { jointOn, probeOn } from '../../support/pipeline-bench.ts';
import { temporaryFolder } from '../../support/record.ts';

test('an instrument is played again by its connection; without it, it is asked for', async () => {
  const folder = temporaryFolder();
  const file = (name: string, content: string | object): string => {
    const path = join(folder, name);
    writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
    return path;
  };
  const spoken = ['T=1', '50\n', 'T=151\n', 'T=152\n'].map((text, index) =>
    captureLine({ kind: 'in', milliseconds: 1000 * (index + 1), text }),
  );
  const opened = captureLine({ kind: 'open', milliseconds: 0, text: '9600' });
  const capture = file('a.capture', captureHead('COM3', 1_700_000_000_000) + opened + spoken.join(''));
  const joint = file('joint.json', { ...jointOn('one', 'box'), probes: [probeOn('box', 1)] });
  const run = async (...more: string[]) => {
    const said: string[] = [];
    const terminal = { out: (text: string) => said.push(text), err: (text: string) => said.push(text) };
    return { status: await replay.run([capture, '--joint', joint, ...more], terminal), said: said.join('\n') };
  };
  const played = await run('--connect', file('lines.json', linesFile({ pattern: 'T={1}' })));
  expect(played.status).toBe(0);
  expect(played.said).toContain('Heard: box. 2 readings, 0 of them late; 0 lines not taken.');
  expect(played.said).toContain('Replayed from a capture: nothing here is being measured.');
  expect(played.said).not.toContain('--connect');
  const wrong = await run('--connect', file('folder.json', folderFile()));
  expect(wrong).toMatchObject({ status: 3, said: expect.stringContaining('describes no line') });
  const without = await run();
  expect(without.said).toContain('Heard: no board said hello.');
  expect(without.said).toContain('say with --connect how it is read');
});
