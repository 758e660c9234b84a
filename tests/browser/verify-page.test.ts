/** The page in a package, opened from a file without a server: verifies, judges again shut in, draws, and names what was changed. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { headFileText } from '../../server/ledger/head-text.ts';
import { builtScript, proofFile } from '../../server/program.ts';
import { bytesOf, file } from '../../server/proof/layout.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { filesOf, packageOf, packed, stationKey } from '../support/package.ts';
import { answers } from '../support/stamps/answers.ts';

/** What a script that was meant to send something away would try. */
const nosy = (port: number): string =>
  'var rules = { judge: () => { const tries = []; for (const name of ["fetch", "WebSocket", "EventSource", "indexedDB", "caches", "document", "importScripts"]) { try { if (name === "fetch") continue; if (name === "importScripts") { importScripts("data:text/javascript,1"); tries.push(name); } else if (name === "indexedDB") { indexedDB.open("x"); tries.push(name); } else if (name === "document" || name === "caches") { if (typeof globalThis[name] !== "undefined" && name === "document") tries.push(name); } else { new globalThis[name]("http://127.0.0.1:9/"); } } catch (error) {} } fetch("http://127.0.0.1:9/stolen").catch(() => {}); return JSON.stringify({ verdict: tries.length === 0 ? "cannot-be-judged" : tries.join() }); } };'.replaceAll(
    '127.0.0.1:9/',
    `127.0.0.1:${port}/`,
  );

describe.skipIf(noBrowser)(
  `verify without a server${noBrowser ? ' (skipped: no Chromium on this machine)' : ''}`,
  () => {
    const browser = useBrowser();
    test('the page of a package, from a folder with nothing but the package', async () => {
      expect(existsSync(proofFile('VERIFY.html')), 'it is built by npm test or npm run build').toBe(true);
      let connections = 0;
      const server = createServer(() => {
        connections += 1;
      });
      await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
      const folder = mkdtempSync(join(tmpdir(), 'verify-page-'));
      try {
        const page = readFileSync(proofFile('VERIFY.html'));
        const rules = new TextDecoder().decode(builtScript()!.bytes);
        const whole = filesOf(packageOf({ signer: stationKey, page, rules, stamped: true }));
        writeFileSync(join(folder, 'VERIFY.html'), whole[file.page]!);
        const tab = await browser.page({}, /127\.0\.0\.1|Content Security Policy/);
        await tab.goto(pathToFileURL(join(folder, 'VERIFY.html')).href);
        const put = async (name: string, bytes: Uint8Array): Promise<string> => {
          writeFileSync(join(folder, name), bytes);
          await tab.getByLabel('Package (.zip)').setInputFiles(join(folder, name));
          await tab
            .getByText(/judged again by the rules that came with this page|by the rules that came with this page:/i)
            .waitFor({ timeout: 60_000 });
          return (await tab.getByRole('status').textContent()) ?? '';
        };
        const intact = await put('intact.zip', packed(whole));
        expect(intact).toContain('INTACT: as it was written, and signed by the station throughout.');
        expect(intact).toContain('SIMULATED (board-1 says so)');
        expect(intact).toContain('judged again by its own rules (test 1), shut in: the same');
        expect(intact).toContain('judged again by the rules that came with this page: the same');
        expect(intact).toContain('was there at 2026-03-02 07:00:00 UTC, right within 1 s, stamped by Stamps of a Test');
        expect(intact).toContain('whether you trust that authority is for you to say');
        for (const [name, said] of [
          ['root', 'issued under Root of Stamps (test), which you trust'],
          ['stranger', 'NOT ISSUED under a certificate that you trust'],
        ] as const) {
          writeFileSync(join(folder, `${name}.pem`), answers[name]);
          await tab.getByLabel('Certificates of a time stamp authority').setInputFiles(join(folder, `${name}.pem`));
          await tab.getByText(said).first().waitFor({ timeout: 60_000 });
        }
        await tab.getByLabel('Certificates of a time stamp authority').setInputFiles([]);
        await tab.getByRole('img', { name: /Temperatures of 2 probes/ }).waitFor();

        const text = new TextDecoder().decode(whole[file.entries]);
        const altered = await put(
          'altered.zip',
          packed({ ...whole, [file.entries]: bytesOf(text.replace('wind from', 'calm from')) }),
        );
        expect(altered).toContain('First bad entry: entry 5 of joint-1: not signed');

        writeFileSync(join(folder, 'kept.txt'), headFileText({ chain: 'joint-1', seq: 9, hash: 'ab'.repeat(32) }));
        await tab.getByLabel('Or the file of that head').setInputFiles(join(folder, 'kept.txt'));
        const other = await put('head.zip', packed(whole));
        expect(other).toContain('First bad entry: entry 9 of joint-1: not the entry that is known from elsewhere');
        await tab.getByLabel('A head that you were given').fill('');

        const shut = await put(
          'nosy.zip',
          packageOf({ signer: stationKey, page, rules: nosy((server.address() as AddressInfo).port) }),
        );
        expect(shut).toContain('judged again by its own rules (test 1), shut in: the same');
        expect(connections).toBe(0);
      } finally {
        server.close();
        rmSync(folder, { recursive: true, force: true });
      }
    }, 120_000);
  },
);
