/** The command verify: what it says, to which stream, with which exit status. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { verify, verifyWith } from '../../../server/commands/verify.ts';
import { type CardsToKeep, runPast } from '../../../server/errands/past.ts';
import { sha256Hex } from '../../../server/ledger/hash.ts';
import { readProgram } from '../../../server/program.ts';
import { sqliteDisk } from '../../../server/record/sqlite.ts';
import { openRecord } from '../../../server/record/store.ts';
import { act, at, bench, note, opened, scanItem, shortJob, temporaryFolder, verdict } from '../../support/record.ts';

const ran = async (command: typeof verify, ...args: string[]) => {
  const out: string[] = [];
  const err: string[] = [];
  const status = await command.run(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { status, out: out.join('\n'), err: err.join('\n') };
};
const record = (said = 'cannot-be-judged'): { folder: string; head: string } => {
  const bed = bench();
  const job = shortJob();
  bed.store.commit([...job.slice(0, -1), verdict(11, said)]);
  const { seq, hash } = bed.store.head('joint-1');
  bed.store.close();
  return { folder: bed.folder, head: `${seq}:${hash}` };
};

test('an intact record, judged anew by the rules of today', async () => {
  const { folder, head } = record();
  const { status, out, err } = await ran(verify, folder, '--head', `joint-1=${head}`);
  expect([status, err]).toEqual([0, '']);
  expect(out.split('\n')).toEqual([
    `INTACT: the record in ${folder} is as it was written.`,
    '',
    'station: intact, 2 entries',
    expect.stringMatching(/^ {2}head 2:[0-9a-f]{64}$/),
    '',
    'joint-1: intact, 8 entries',
    `  head ${head}`,
    '  SIMULATED (board-1 says so)',
    '  8 scans, measured from 2026-03-02 06:00:00 UTC to 2026-03-02 06:00:09 UTC',
    '  no gap in the readings of board-1',
    '  closed 2026-03-02 06:00:11 UTC',
    '  verdict recorded: cannot-be-judged',
    expect.stringMatching(
      /^ {2}NOT JUDGED AGAIN by its own rules \(test 1, shut in\): the record does not say which rules/,
    ),
    '  judged again by the rules of today: the same',
    '',
    'NOT SIGNED: the record has no key. Whoever can write to it could have made it anew.',
    'documents kept: 0',
    '',
    expect.stringContaining('share one judge'),
    expect.stringContaining('Intact means: not changed since it was written, as far as'),
    expect.stringContaining('can rewrite all of it until a head has left the house'),
    expect.stringContaining('nor that a weld is sound or safe.'),
  ]);
});

test('how the names of entries were established is told, where entries say it', async () => {
  const bed = bench();
  const noteBy = (at: number, proof: 'PIN' | 'typed name') => ({ ...note(at, 'Seen.'), proof, person: 'p-3f9a61c2' });
  bed.store.commit([
    ...shortJob().slice(0, 1),
    noteBy(500, 'PIN'),
    noteBy(600, 'typed name'),
    noteBy(700, 'PIN'),
    note(800, 'x'),
  ] as never);
  bed.store.close();
  expect((await ran(verify, bed.folder)).out).toContain(
    '  entries by people: 1 name as typed, 2 signed on with a PIN, 1 that do not say\n',
  );
});

test('--json answers the same as data', async () => {
  const { folder } = record();
  const answer = JSON.parse((await ran(verify, folder, '--json')).out);
  expect(answer).toMatchObject({ ok: true, verdictDiffers: false, documents: { kept: 0 } });
  expect(answer.chains.map((chain: { chain: string }) => chain.chain)).toEqual(['station', 'joint-1']);
  expect(answer.chains[1]).toMatchObject({
    entries: 8,
    scans: 8,
    measured: false,
    source: { kind: 'simulated' },
    closedAt: at(11_000),
  });
  expect(answer.chains[1]).not.toHaveProperty('attached');
});

test('an altered record names the first bad entry, and answers 1', async () => {
  const { folder } = record();
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
  raw.exec("DROP TRIGGER entries_last; DELETE FROM entries WHERE chain = 'joint-1' AND seq = 5");
  raw.close();
  const { status, out } = await ran(verify, folder);
  expect(status).toBe(1);
  expect(out.split('\n').slice(0, 2)).toEqual([
    `ALTERED: the record in ${folder}.`,
    'First bad entry: entry 5 of joint-1: missing. Entry 6 follows entry 4.',
  ]);
  expect(out).toContain('joint-1: ALTERED, 4 entries stand before it');
  expect(JSON.parse((await ran(verify, folder, '--json')).out).firstBad).toMatchObject({
    chain: 'joint-1',
    seq: 5,
    why: 'missing',
  });
});

test('a verdict that differs stands on the first line, and answers 1', async () => {
  const { folder } = record('complies');
  const { status, out } = await ran(verify, folder);
  expect(status).toBe(1);
  expect(out.split('\n')[0]).toBe('VERDICT DIFFERS for joint-1: recorded complies, judged now cannot-be-judged.');
});

/** Rules that answer what a test wants to hear. */
const script = (verdict: string): Uint8Array =>
  new TextEncoder().encode(`var rules = { judge: () => JSON.stringify({ verdict: '${verdict}' }) };`);
const recordBy = (rules: Uint8Array): string => {
  const folder = join(temporaryFolder(), 'station');
  const sha256 = sha256Hex(rules);
  const store = openRecord({
    folder,
    begin: true,
    program: 'then 1',
    now: () => at(0),
    rules: { sha256, bytes: rules },
  });
  store.commit(shortJob());
  store.close();
  return folder;
};

test('a whole record is judged by its own rules, shut in, as well', async () => {
  const same = await ran(verify, recordBy(script('cannot-be-judged')));
  expect(same.out).toContain('  judged again by its own rules (then 1, shut in): the same\n');
  expect(same.out).toContain('  judged again by the rules of today: the same\n');
  expect(same.status).toBe(0);
  const other = await ran(verify, recordBy(script('complies')));
  expect(other.out).toMatch(
    /^VERDICT DIFFERS for joint-1: recorded cannot-be-judged, judged again by its own rules \(then 1\): complies\./,
  );
  expect(other.status).toBe(1);
});

test('own rules that are not at hand are named, and taken by their hash from a file', async () => {
  const rules = script('cannot-be-judged');
  const folder = recordBy(rules);
  const raw = sqliteDisk.open(join(folder, 'record.sqlite'), 'write');
  raw.exec('DROP TRIGGER documents_last; DELETE FROM documents');
  raw.close();
  const gone = await ran(verify, folder);
  expect(gone.out).toContain(
    `NOT JUDGED AGAIN by its own rules (then 1, shut in): the script of these rules, SHA-256 ${sha256Hex(rules)}, is neither`,
  );
  expect(gone.out).toContain('give it with --rules FILE');
  const file = join(temporaryFolder(), 'rules.js');
  writeFileSync(file, script('complies'));
  expect((await ran(verify, folder, '--rules', file)).out).toContain('NOT JUDGED AGAIN by its own rules');
  writeFileSync(file, rules);
  expect((await ran(verify, folder, '--rules', file)).out).toContain('by its own rules (then 1, shut in): the same');
  expect((await ran(verify, folder, '--rules', 'nowhere.js')).err).toContain('there is no file nowhere.js');
});

test('what cannot be judged anew says why', async () => {
  const { folder } = record();
  const broken = verifyWith(() => {
    throw new Error('the judge is away');
  });
  const { status, out } = await ran(broken, folder);
  expect([status, out.includes('NOT JUDGED AGAIN by the rules of today: the judge is away')]).toEqual([0, true]);
});

test('a head known from elsewhere that is not in the chain', async () => {
  const { folder } = record();
  const { status, out } = await ran(verify, folder, '--head', `joint-1=8:${'a'.repeat(64)}`);
  expect(status).toBe(1);
  expect(out).toContain('First bad entry: entry 8 of joint-1: not the entry that is known from elsewhere.');
});

test('gaps, sleep, a clock that steps back, scans not sealed, a joint still open, a source declared', async () => {
  const bed = bench();
  bed.store.commit([
    opened(0, 'joint-1', 'measured'),
    ...[1, 2, 12, 13, 30].map((n) => scanItem(n)),
    note(29, 'x'),
    note(400, 'y'),
  ]);
  bed.store.commit([act(400, { kind: 'declare source', statement: 'real wires' }), scanItem(401)]);
  const { status, out } = await ran(verify, bed.folder);
  expect(status).toBe(0);
  expect(out).toContain('measured (board-1 says so); source declared by R. Ahlgren');
  expect(out).toContain(
    '2 times, 27 s in all, without readings of board-1: 2026-03-02 06:00:01 UTC for 10 s; 2026-03-02 06:00:12 UTC for 17 s',
  );
  expect(out).toContain(
    '1 time, 6 min 10 s in all, without a sign that the station was awake: 2026-03-02 06:00:30 UTC',
  );
  expect(out).toContain('the clock stepped back 1 time');
  expect(out).toContain('1 scan not sealed yet');
  expect(out).toContain('still open');
  expect(out).toContain('no verdict recorded');
  expect(out).toContain('by its own rules (test 1, shut in, what is sealed)');
  expect(out).toContain('judged again by the rules of today: ');
});

test('documents that are missing or altered', async () => {
  const bed = bench();
  const sha256 = bed.store.putDocument(new Uint8Array([9]), 'image/png');
  bed.store.commit([opened(0), act(1, { kind: 'note', text: 'photo', document: 'e'.repeat(64) })]);
  bed.store.close();
  const raw = sqliteDisk.open(join(bed.folder, 'record.sqlite'), 'write');
  raw.exec("DROP TRIGGER documents_stay; UPDATE documents SET bytes = x'00'");
  raw.close();
  const { status, out } = await ran(verify, bed.folder);
  expect(status).toBe(1);
  expect(out).toContain(`documents kept: 1\n  ALTERED: ${sha256}\n  MISSING: ${'e'.repeat(64)}, handed in by an entry`);
});

test('bad input answers 3 and says what to do, on standard error', async () => {
  const nowhere = await ran(verify, join(temporaryFolder(), 'nowhere'));
  expect([nowhere.status, nowhere.out]).toEqual([3, '']);
  expect(nowhere.err).toContain('There is no record in');
  for (const args of [[], ['a', 'b'], ['a', '--head', 'joint-1'], ['a', '--head', 'j=0:00'], ['a', '--depth']]) {
    const { status, err } = await ran(verify, ...args);
    expect([status, err.includes('verify --help')]).toEqual([3, true]);
  }
  const { status, out } = await ran(verify, '--help');
  expect([status, out.startsWith('verify RECORD')]).toEqual([0, true]);
});

test('what search keeps of a joint is held against its chain, and a difference is no alteration', async () => {
  const bed = bench();
  for (const id of ['joint-1', 'joint-2', 'joint-3']) bed.store.commit(shortJob(id));
  const { made, cards } = runPast({ kind: 'cards to keep' }, bed.store, readProgram()) as CardsToKeep;
  const otherwise = (bytes: Uint8Array): Uint8Array =>
    new TextEncoder().encode(new TextDecoder().decode(bytes).replace('"title":"Plain joint"', '"title":"Another"'));
  bed.store.keepCards(made, [...cards.slice(0, 2), { ...cards[2]!, bytes: new Uint8Array([123, 255]) }]);
  bed.store.keepCards('of another program', [{ ...cards[1]!, bytes: otherwise(cards[1]!.bytes) }]);
  bed.store.keepCards(made, [{ ...cards[0]!, bytes: otherwise(cards[0]!.bytes) }]);
  bed.store.close();
  const { status, out } = await ran(verify, bed.folder);
  expect(status).toBe(1);
  expect(out.split('\n').slice(0, 3)).toEqual([
    `INTACT: the record in ${bed.folder} is as it was written.`,
    'SEARCH LIST DIFFERS: The search list was changed or is out of date for joint-1, joint-3. What was recorded stands; what a search or a count says of these joints may be wrong.',
    `  It is made again from the chains by a station on this record, half a minute after its start: npm start -- --data ${bed.folder}`,
  ]);
  expect(out).toContain('search list: 2 joints compared with their chains, 2 differ');
  const { out: json } = await ran(verify, bed.folder, '--json');
  expect(JSON.parse(json)).toMatchObject({ ok: true, searchList: { compared: 2, differing: ['joint-1', 'joint-3'] } });
});
