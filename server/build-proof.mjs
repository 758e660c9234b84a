/**
 * Builds what a package carries beside the record: the rules as one script (server/proof/rules-script.ts), and the page
 * that verifies a package without a network (web/verify/), one file. The same sources give the same bytes: no path, no time and no name of a machine goes in.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';
import { root } from './install.mjs';

const folder = join(root, '.build', 'proof');
const next = join(root, '.build', 'proof.next');

/** One script that leaves what the entry exports in a variable of that name. */
async function scriptOf(entry, name, define = {}) {
  const made = await build({
    configFile: false,
    root,
    logLevel: 'warn',
    publicDir: false,
    define,
    build: {
      write: false,
      target: 'es2022',
      minify: true,
      lib: { entry: join(root, entry), name, formats: ['iife'], fileName: name },
    },
  });
  const [{ output }] = Array.isArray(made) ? made : [made];
  return output[0].code;
}

/** Uses nothing but the language: what the judge wants of a platform is brought along. */
const prelude = readFileSync(join(root, 'server', 'rules-prelude.mjs'), 'utf8').replaceAll(/^export /gm, '');
const rules = `var rules = (() => {\n${prelude}\n${await scriptOf('server/proof/rules-script.ts', 'rules')}\nreturn rules;\n})();\n`;
const ofPage = (name) => readFileSync(join(root, 'web', 'verify', name), 'utf8');
const hashOf = (text) => `sha256-${createHash('sha256').update(text).digest('base64')}`;

/** One file without a network: its policy lets nothing run but what stands in it. */
async function verifyPage() {
  const frame = ofPage('frame.js');
  const put = { frameScript: frame, frameHash: hashOf(frame), rulesOfPage: rules };
  const define = Object.fromEntries(Object.entries(put).map(([name, text]) => [name, JSON.stringify(text)]));
  // Nothing in a script may look like its end.
  const script = (await scriptOf('web/verify/main.ts', 'page', define)).replaceAll('</script', '<\\/script');
  const style = ofPage('verify.css');
  const policy = [
    "default-src 'none'",
    `script-src '${hashOf(script)}' '${hashOf(frame)}'`,
    `style-src '${hashOf(style)}'`,
    'worker-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const parts = { '/*POLICY*/': policy, '/*STYLE*/': style, '/*SCRIPT*/': script };
  return ofPage('verify.html').replace(/\/\*[A-Z]+\*\//g, (name) => parts[name]);
}

const page = await verifyPage();
rmSync(next, { recursive: true, force: true });
mkdirSync(next, { recursive: true });
writeFileSync(join(next, 'rules.js'), rules);
writeFileSync(join(next, 'VERIFY.html'), page);
rmSync(folder, { recursive: true, force: true });
renameSync(next, folder);
