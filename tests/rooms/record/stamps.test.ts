/** Time stamps in a record: asked for, checked, kept, found again by whoever verifies; and whatever was rewritten since is named. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { stamp, stampWith } from '../../../server/commands/stamp.ts';
import { verify } from '../../../server/commands/verify.ts';
import { encodeCanonical } from '../../../server/ledger/canonical.ts';
import { stampBody } from '../../../server/ledger/stamp-entry.ts';
import { bytesOf } from '../../../server/proof/layout.ts';
import { createKeyPem, signerOfPem } from '../../../server/record/ed25519.ts';
import { keyFileOf } from '../../../server/record/key-file.ts';
import { openRecordReadOnly } from '../../../server/record/read.ts';
import { gather, ofRecord } from '../../../server/report/gather.ts';
import { type PageModel, sectionText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { renderPdf } from '../../../server/report/pdf.ts';
import { readRequest, stampRequest } from '../../../server/stamp/request.ts';
import { bench, shortJob, temporaryFolder } from '../../support/record.ts';
import { answers, stampedHead } from '../../support/stamps/answers.ts';
import { stampFor, type Wish } from '../../support/stamps/authority.ts';
import { rewrite, tamper } from '../../support/tampered-record.ts';

const page = readFileSync(new URL('../../../server/record/FORMAT.md', import.meta.url), 'utf8');
const example = (name: string): string => new RegExp(`^\`\`\`example ${name}\\n(.*)\\n`, 'm').exec(page)![1]!;

test('the examples of FORMAT.md', () => {
  const made = stampRequest(bytesOf(stampedHead), Uint8Array.from([0, 1, 2, 3, 4, 5, 6, 7]));
  expect(Buffer.from(made).toString('hex')).toBe(example('time stamp request'));
  const body = stampBody(stampedHead, answers.plain, readRequest(answers.request).nonce);
  expect(new TextDecoder().decode(encodeCanonical(body))).toBe(example('time stamp'));
});

/** A closed record with a key, and what the commands say of it. */
const shop = () => {
  const pem = createKeyPem();
  const { folder, store } = bench(undefined, () => signerOfPem(pem));
  store.commit(shortJob());
  store.close();
  writeFileSync(keyFileOf(folder), pem, { mode: 0o600 });
  const files = temporaryFolder();
  const run = async (...args: string[]) => {
    const out: string[] = [];
    const terminal = { out: (text: string) => out.push(text), err: (text: string) => out.push(text) };
    const [name, ...rest] = args;
    const status = await (name === 'stamp' ? stamp : name === 'hasty stamp' ? stampWith(40) : verify).run(
      rest,
      terminal,
    );
    return { status, out: out.join('\n') };
  };
  const at = (name: string): string => join(files, name);
  writeFileSync(at('root.pem'), answers.root);
  writeFileSync(at('stranger.pem'), answers.stranger);
  return { folder, at, run };
};

const asked = async ({ folder, at, run }: ReturnType<typeof shop>): Promise<Uint8Array> => {
  expect((await run('stamp', folder, 'joint-1', '--out', at('j.tsq'))).status).toBe(0);
  return new Uint8Array(readFileSync(at('j.tsq')));
};

test('asked for as a file, answered, kept, and read by whoever verifies', async () => {
  const here = shop();
  const { folder, at, run } = here;
  const request = await asked(here);
  writeFileSync(at('j.tsr'), stampFor(request));
  const kept = await run('stamp', folder, '--answer', at('j.tsr'), '--request', at('j.tsq'));
  expect(kept).toMatchObject({
    status: 0,
    out: expect.stringContaining('entry 8 was there at 2026-03-02 07:00:00 UTC'),
  });

  const plain = await run('verify', folder);
  expect(plain.out).toMatch(
    /time stamp: entry 8, and with it all before it, was there at 2026-03-02 07:00:00 UTC, right within 1 s, stamped by Stamps of a Test/,
  );
  expect(plain.out).toContain('give the certificates that you trust with --tsa-ca');
  expect(plain.out).toContain("By the station's clock that entry was written at 2026-03-02 06:00:11 UTC");
  expect(plain.status).toBe(0);
  const trusted = await run('verify', folder, '--tsa-ca', at('root.pem'));
  expect([trusted.status, trusted.out.includes('issued under Root of Stamps (test), which you trust')]).toEqual([
    0,
    true,
  ]);
  const strange = await run('verify', folder, '--tsa-ca', at('stranger.pem'));
  expect(strange.out).toMatch(/^NOT VOUCHED FOR/);
  expect([strange.status, strange.out.includes('NOT ISSUED under a certificate that you trust')]).toEqual([1, true]);
  expect((await run('verify', folder, '--tsa-ca', at('j.tsq'))).out).toContain('holds none that can be read');
  expect(JSON.parse((await run('verify', folder, '--json')).out).chains[1].stamps).toMatchObject([
    { seq: 9, authority: 'Stamps of a Test' },
  ]);
});

test.each<[what: string, wish: Wish | 'other', said: RegExp]>([
  ['refused', { status: 2 }, /Not kept: the authority refused \(status 2\)/],
  ['of another request', { nonce: '0102' }, /Not kept: it answers another request/],
  [
    'from before there was such an authority',
    { at: '20250101000000Z' },
    /Not kept: the certificate that signed it was not valid/,
  ],
  ['of another record', 'other', /is for no entry of this record/],
])('an answer %s is not kept', async (_what, wish, said) => {
  const here = shop();
  const request = await asked(here);
  writeFileSync(here.at('j.tsr'), wish === 'other' ? answers.plain : stampFor(request, wish));
  if (wish === 'other') writeFileSync(here.at('j.tsq'), answers.request);
  const { status, out } = await here.run(
    'stamp',
    here.folder,
    '--answer',
    here.at('j.tsr'),
    '--request',
    here.at('j.tsq'),
  );
  expect(out).toMatch(said);
  expect(status).toBe(3);
});

const serving = async (
  answer: (body: Uint8Array) => { status?: number; type?: string; body?: Uint8Array } | undefined,
) => {
  const server: Server = createServer((request, response) => {
    const parts: Buffer[] = [];
    request
      .on('data', (part: Buffer) => parts.push(part))
      .on('end', () => {
        const made = answer(new Uint8Array(Buffer.concat(parts)));
        if (made === undefined) return;
        response.writeHead(made.status ?? 200, { 'Content-Type': made.type ?? 'application/timestamp-reply' });
        response.end(made.body ?? bytesOf('no'));
      });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
};

test('sent to an address that was given, and every way in which nothing comes of it is told', async () => {
  const { folder, run } = shop();
  const send = (address: string) => run('stamp', folder, 'joint-1', '--send', address);
  expect((await send('tsa.example')).out).toContain('is no address to send to');
  expect((await send(await serving(() => ({ status: 403 })))).out).toContain('answered with status 403');
  expect((await send(await serving(() => ({ type: 'text/html; charset=utf-8' })))).out).toContain(
    'answered with text/html',
  );
  expect((await send(await serving(() => ({ body: new Uint8Array(100_001) })))).out).toContain(
    'more than a time stamp is',
  );
  expect((await send(await serving(() => ({})))).out).toContain('no answer of a time stamp authority that can be read');
  const silent = await serving(() => undefined);
  const hasty = await run('hasty stamp', folder, 'joint-1', '--send', silent);
  expect(hasty.out).toContain('no answer within 0.04 s');
  expect((await send('http://127.0.0.1:1/')).out).toMatch(/nobody answers|cannot be reached/);
  const good = await send(await serving((body) => ({ body: stampFor(body) })));
  expect(good).toMatchObject({ status: 0, out: expect.stringContaining('kept in the record of joint-1') });
  expect((await run('stamp', folder, 'joint-9', '--send', 'http://127.0.0.1:1/')).out).toContain('no joint "joint-9"');
  expect((await run('stamp', folder)).out).toContain('name the joint whose head is to be stamped');
});

test('an authority run by OpenSSL stamps it, and OpenSSL verifies what was kept', async (context) => {
  const { folder, at, run } = shop();
  try {
    execFileSync('openssl', ['version'], { stdio: 'pipe' });
  } catch {
    context.skip('openssl is not on this machine');
  }
  const section = 'signer_digest = sha256\ndefault_policy = 1.2.3.4.1\ndigests = sha256\ness_cert_id_alg = sha256\n';
  writeFileSync(at('ts.cnf'), `[tsa]\ndefault_tsa = it\n[it]\nserial = ${at('serial')}\n${section}`);
  writeFileSync(at('serial'), '01\n');
  writeFileSync(at('tsa.pem'), answers.certificate);
  writeFileSync(at('tsa.key'), answers.key);
  const address = await serving((body) => {
    writeFileSync(at('q'), body);
    const files = ['-queryfile', at('q'), '-signer', at('tsa.pem'), '-inkey', at('tsa.key'), '-out', at('r')];
    execFileSync('openssl', ['ts', '-reply', '-config', at('ts.cnf'), ...files], { stdio: 'pipe' });
    return { body: new Uint8Array(readFileSync(at('r'))) };
  });
  expect(await run('stamp', folder, 'joint-1', '--send', address)).toMatchObject({ status: 0 });
  expect((await run('verify', folder, '--tsa-ca', at('root.pem'))).status).toBe(0);
  const reader = openRecordReadOnly(folder);
  const { head, answer } = JSON.parse(new TextDecoder().decode([...reader.stored('joint-1')].at(-1)!.bytes)).body;
  reader.close();
  writeFileSync(at('head.txt'), head);
  writeFileSync(at('kept.tsr'), Buffer.from(answer, 'base64'));
  const verified = ['ts', '-verify', '-data', at('head.txt'), '-in', at('kept.tsr'), '-CAfile', at('root.pem')];
  expect(execFileSync('openssl', verified, { encoding: 'utf8', stdio: 'pipe' })).toContain('Verification: OK');
  // And what our own authority makes is what OpenSSL takes, so that the tests above mean something.
  writeFileSync(at('own.tsr'), stampFor(stampRequest(bytesOf(head), new Uint8Array(8))));
  expect(execFileSync('openssl', verified.with(5, at('own.tsr')), { encoding: 'utf8', stdio: 'pipe' })).toContain('OK');
  expect(existsSync(at('r'))).toBe(true);
});

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

test('the report lists every stamp with what it shows, and its bytes come out the same again', async () => {
  const here = shop();
  const { folder, at, run } = here;
  const program = { name: 'test', version: '1' };
  const identity = (): { model: PageModel; text: string } => {
    const reader = openRecordReadOnly(folder);
    const model = pages(gather({ ...ofRecord(reader, 'joint-1'), program, rules: 'test', zone: 'Europe/Oslo' }));
    reader.close();
    return { model, text: sectionText(model.sections.at(-1)!) };
  };
  expect(identity().text).toContain('No authority outside has stamped this record.');
  const request = await asked(here);
  writeFileSync(at('j.tsr'), stampFor(request));
  await run('stamp', folder, '--answer', at('j.tsr'), '--request', at('j.tsq'));
  const reader = openRecordReadOnly(folder);
  const hash = [...reader.hashes('joint-1')].find(({ seq }) => seq === 8)!.hash;
  reader.close();
  const { model, text } = identity();
  expect(text).toContain('# Identity of the record');
  expect(text).toMatch(/2026-03-02 07:00:00 UTC, right within 1 s \| .*Stamps of a Test/);
  expect(text).toContain(`serial number 07\npolicy 1.2.3.4.1 | entry 8 of 9\n${hash}\nkept in entry 9`);
  expect(text).toContain('It does not show when it was written before that time, that what was written is true');
  expect(text).not.toContain('No authority outside');
  expect(Buffer.compare(await renderPdf(model), await renderPdf(identity().model))).toBe(0);
  tamper(folder, (raw) =>
    rewrite(raw, 'joint-1', 9, (body) => ({ ...(body as object), answer: base64(answers.late) })),
  );
  expect(identity().text).toContain('DOES NOT HOLD: it stamps something else than this head');
});
