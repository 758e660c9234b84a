/** The commands find, statistics and what-if: what they say, to which stream, with which exit status. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Command } from '../../../server/commands/command.ts';
import { find } from '../../../server/commands/find.ts';
import { statistics } from '../../../server/commands/statistics.ts';
import { whatIf } from '../../../server/commands/what-if.ts';
import { bench, opened, temporaryFolder } from '../../support/record.ts';
import { recordedScenario } from '../../support/recorded-scenario.ts';

const ran = async (command: Command, ...args: string[]) => {
  const out: string[] = [];
  const err: string[] = [];
  const status = await command.run(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { status, out: out.join('\n'), err: err.join('\n') };
};

const folder = (): string => {
  const made = bench();
  made.store.commit(recordedScenario('corrected-struck', 'seam-4').items);
  made.store.commit([opened(9000, 'frame-2')]);
  made.store.close();
  return made.folder;
};

test('find, statistics and what-if over one record', async () => {
  const record = folder();
  const all = await ran(find, record, '--zone', 'UTC');
  expect([all.status, all.err]).toEqual([0, '']);
  expect(all.out.split('\n')[0]).toBe('2 joints found. 2 joints were looked through.');
  expect(all.out).toContain('frame-2: Plain joint [Simulated]');
  const one = await ran(find, record, 'SEAM', '--person', 'bo', '--role', 'welder', '--zone', 'UTC');
  expect(one.out).toContain('Open; so far complies; 2026-03-02');
  expect(one.out).toContain('found in: joint "seam-4", person "Bo"');
  expect((await ran(find, record, 'nobody')).out).toBe('Nothing found. 2 joints were looked through.');
  expect((await ran(find, record, '--finding', 'pass corrected', '--json')).out).toContain('"found": 1');
  const wrong = await ran(find, record, '--verdict', 'good');
  expect([wrong.status, wrong.err]).toEqual([
    3,
    expect.stringContaining('--verdict: found the text "good"; allowed: one of "complies"'),
  ]);
  expect((await ran(find, join(record, 'nowhere'))).err).toContain('There is no record in');

  const csv = join(temporaryFolder(), 'found.csv');
  expect((await ran(find, record, '--csv', csv)).err).toBe(`written: ${csv}`);
  expect(readFileSync(csv, 'utf8').trim().split('\r\n')).toHaveLength(3);

  const counted = await ran(statistics, record, '--zone', 'UTC');
  expect(counted.status).toBe(0);
  expect(counted.out).toContain('SIMULATED: 1 joint, 1 open');
  expect(counted.out).toContain('Pass corrected: in 1 of 1 joint, 1 time in all');

  const supposed = await ran(whatIf, record, 'seam-4', '--minimum', '165', '--zone', 'UTC');
  expect([supposed.status, supposed.err]).toEqual([0, '']);
  const lines = supposed.out.split('\n');
  expect(lines[0]).toBe('WHAT IF, NOT THE RECORD');
  expect(lines[1]).toBe('If the procedure had asked for a minimum of 165 °C:');
  expect(lines[2]).toMatch(
    /^As it stands, recorded up to 2026-03-02 .* STILL OPEN: every verdict here is one so far\.$/,
  );
  expect(lines[3]).toBe('So far: complies. It would be: does not comply.');
  expect(supposed.out).toContain('Findings that would come:');
  const early = await ran(whatIf, record, 'seam-4', '--minimum', '165', '--zone', 'UTC', '--at', '06:00:30');
  expect(early.out).toContain('As it stood at 2026-03-02 06:00:30 UTC, by what had been recorded by then.');
  for (const [args, said] of [
    [['seam-5', '--insulated'], 'no joint "seam-5"'],
    [['seam-5', '--insulated'], 'perhaps seam-4'],
    [['seam-4'], 'found 0 changes; allowed: one change'],
    [['seam-4', '--insulated', '--without', 'T1'], 'found 2 changes'],
    [['seam-4', '--without', 'T9'], 'a probe of this joint: T1, T2'],
    [['seam-4', '--later', 'two', '--pass', '1'], 'minutes'],
    [['seam-4', '--insulated', '--at', 'noon'], '--at noon: no moment; as 13:05'],
    [['seam-4', '--insulated', '--at', '2026-03-01 12:00'], 'at: found a moment before the joint was opened'],
    [['seam-4', '--insulated', '--zone', 'Oslo'], '--zone Oslo: not a time zone known here'],
  ] as const) {
    const refused = await ran(whatIf, record, ...args);
    expect([refused.status, refused.out]).toEqual([3, '']);
    expect(refused.err).toContain(said);
  }
});
