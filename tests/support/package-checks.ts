/** A package looked at in three ways: by our eyes, by the command, and by the script that knows FORMAT.md only. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { verify } from '../../server/commands/verify.ts';
import { inspectPackage } from '../../server/proof/inspect-package.ts';
import type { Files } from '../../server/proof/layout.ts';
import { mathematics } from '../../server/record/certificate-signature.ts';
import { temporaryFolder } from './record.ts';

export const inspected = (files: Files) => inspectPackage(files, mathematics);
export const unpackedTo = (files: Files): string => {
  const folder = temporaryFolder();
  for (const [name, bytes] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), bytes);
  }
  return folder;
};
export const independently = (files: Files, ...more: string[]): string => {
  const script = fileURLToPath(new URL('./independent-check.mjs', import.meta.url));
  return spawnSync(process.execPath, [script, unpackedTo(files), ...more], { encoding: 'utf8' }).stdout.trim();
};
export const ran = async (bytes: Uint8Array, ...args: string[]) => {
  const path = join(temporaryFolder(), 'p.zip');
  writeFileSync(path, bytes);
  const out: string[] = [];
  const status = await verify.run([path, ...args], { out: (text) => out.push(text), err: (text) => out.push(text) });
  return { status, out: out.join('\n') };
};
