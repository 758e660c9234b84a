/**
 * What this program calls itself in a record: name, version, and the SHA-256 of the rules it judges by. Two
 * stations with the same rules have the same identity; a verdict that differs can be traced to a change of it.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface Program {
  readonly name: string;
  readonly version: string;
  /** "preheat-ledger 0.1.0, rules 3f2a..." with 16 hexadecimal digits. */
  readonly rules: string;
  /** The same rules as one script, where they were built (server/build.mjs); `rules` is then named by its SHA-256. */
  readonly script?: RulesScript;
}
export interface RulesScript {
  readonly sha256: string;
  readonly bytes: Uint8Array;
}

/** The rooms that can change a reading or a verdict. */
const ruleRooms = ['measure', 'weld', 'metallurgy', 'conduction', 'reading', 'judgement'];

export function readProgram(): Program {
  const here = dirname(fileURLToPath(import.meta.url));
  const { name, version } = JSON.parse(readFileSync(packageFile(here), 'utf8')) as { name: string; version: string };
  // Sources may be newer than what was built of them: they are named by themselves.
  const script = import.meta.url.endsWith('.ts') ? undefined : builtScript();
  if (script !== undefined)
    return { name, version, rules: `${name} ${version}, rules ${script.sha256.slice(0, 16)}`, script };
  const hash = createHash('sha256');
  for (const room of ruleRooms) {
    const folder = join(here, room);
    for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
      if (!/\.(ts|js)$/.test(file)) continue;
      hash.update(`\0${room}/${file.replaceAll('\\', '/')}\0`).update(readFileSync(join(folder, file)));
    }
  }
  return { name, version, rules: `${name} ${version}, rules ${hash.digest('hex').slice(0, 16)}` };
}

/** What is built for packages: the script of the rules, and the page that verifies without this program. */
export const proofFile = (name: 'rules.js' | 'VERIFY.html'): string =>
  join(dirname(packageFile(dirname(fileURLToPath(import.meta.url)))), '.build', 'proof', name);

export function builtScript(): RulesScript | undefined {
  const file = proofFile('rules.js');
  if (!existsSync(file)) return undefined;
  const bytes = readFileSync(file);
  return { sha256: createHash('sha256').update(bytes).digest('hex'), bytes };
}

/** The nearest one above: sources and built files lie at different depths. */
function packageFile(from: string): string {
  const file = join(from, 'package.json');
  if (existsSync(file)) return file;
  const above = dirname(from);
  if (above === from) throw new Error('package.json is missing beside the program; install it again');
  return packageFile(above);
}
