/** `judge --keep`: the record that it leaves, told and verified as a person does it on a terminal. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { judge } from '../../../server/commands/judge.ts';
import { verifyWith } from '../../../server/commands/verify.ts';
import { judgeAll } from '../../../server/judgement/judge.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { temporaryFolder } from '../../support/record.ts';

async function run(...args: string[]) {
  const out: string[] = [];
  const terminal = { out: (text: string) => out.push(text), err: (text: string) => out.push(text) };
  return { status: await judge.run(args, terminal), out: out.join('\n') };
}

it('keeps what it judges as a closed joint of a record, says so, and verify finds it intact and imported', async () => {
  const home = temporaryFolder();
  const [joint, log, record] = ['joint.json', 'log.csv', 'record'].map((name) => join(home, name)) as [
    string,
    string,
    string,
  ];
  writeFileSync(joint, JSON.stringify(jointOn('frame-7', 'L')));
  const rows = Array.from({ length: 60 }, (_, index) => `${index * 10},${150 + index},${151 + index}`);
  writeFileSync(log, ['Time (s),L-1 (°C),L-2 (°C)', ...rows].join('\n'));

  const keep = ['--keep', record, '--who', 'Runa Teld'];
  expect(await run(joint, log, '--keep', record)).toMatchObject({
    status: 3,
    out: expect.stringMatching(/--who NAME/),
  });
  expect((await run(joint, log, '--who', 'Runa Teld')).out).toMatch(/--who goes with --keep/);
  expect((await run(joint, log, ...keep, '--role', 'welder')).out).toMatch(/keeping logs as a record/);
  expect((await run(joint, log, ...keep)).out).toMatch(/not kept: .*no record in/);

  const kept = await run(joint, log, ...keep, '--role', 'inspector', '--begin');
  expect(kept.status).toBe(2);
  expect(kept.out).toContain(`Kept in ${record} as joint frame-7, imported and closed.`);
  const again = await run(joint, log, ...keep);
  expect([again.status, again.out]).toEqual([3, expect.stringMatching(/kept already: joint frame-7.*\n.*--keep-as/)]);
  expect((await run(joint, log, ...keep, '--keep-as', 'frame-7-b')).status).toBe(2);

  const told: string[] = [];
  const terminal = { out: (text: string) => told.push(text), err: (text: string) => told.push(text) };
  expect(await verifyWith((inputs) => judgeAll(inputs).assessment).run([record], terminal)).toBe(0);
  expect(told.join('\n')).toMatch(/frame-7: intact.*\n.*head.*\n *IMPORTED.*log.csv; its times are elapsed/);
  expect(readFileSync(`${record}.key.pem`, 'utf8')).toContain('PRIVATE KEY');
});

it('decides on deviations by their names before it closes the joint, and says what stays open', async () => {
  const home = temporaryFolder();
  const [joint, log, acts, record] = ['joint.json', 'log.csv', 'acts.csv', 'record'].map((name) =>
    join(home, name),
  ) as [string, string, string, string];
  writeFileSync(joint, JSON.stringify(jointOn('frame-7', 'L')));
  writeFileSync(
    log,
    ['Time (s),L-1 (°C),L-2 (°C)', ...Array.from({ length: 60 }, (_, n) => `${n * 10},20,21`)].join('\n'),
  );
  writeFileSync(
    acts,
    'time,kind,place,who,pass,pass kind\n60,pass start,A,Odd Varen,1,root\n120,pass end,A,Odd Varen,1,\n',
  );
  const judging = [joint, log, '--events', acts];
  const named = [...(await run(...judging)).out.matchAll(/\[(.+)\]$/gm)].map(([, key]) => key!);
  expect(named.length).toBeGreaterThan(1);

  const keep = [...judging, '--keep', record, '--begin', '--who', 'Runa Teld', '--role', 'inspector'];
  for (const [decided, said] of [
    [`${named[0]}=approve: fine`, 'the decision accept, repair or reject'],
    [`${named[0]}=accept:`, 'and a reason'],
    ['no such=accept: fine', `no such deviation; there are: ${named[0]}`],
  ] as const)
    expect(await run(...keep, '--decide', decided)).toMatchObject({ status: 3, out: expect.stringContaining(said) });
  expect((await run(...judging, '--decide', `${named[0]}=accept: fine`)).out).toContain('--decide goes with --keep');
  const kept = await run(...keep, '--decide', `${named[0]}=repair: gouged out and welded anew`);
  expect(kept.status).toBe(1);
  expect(kept.out).toContain(`imported and closed. Deviations: ${named.length - 1} open and 1 to be repaired.`);
});
