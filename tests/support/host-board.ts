/**
 * The firmware's core, built for this computer under a sanitizer, once for each process of the tests. Where a compiler
 * is missing its tests are skipped with the reason; where PREHEAT_COMPILERS_REQUIRED is set, that fails.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const boardFolder = fileURLToPath(new URL('../../firmware-protocol/board/', import.meta.url));

/** What is missing of these programs, as a text for a skipped test; empty if nothing is. */
export function missing(...programs: readonly string[]): string {
  const absent = programs.filter((program) => spawnSync(program, ['--version']).error !== undefined);
  if (absent.length === 0) return '';
  if (process.env.PREHEAT_COMPILERS_REQUIRED !== undefined) throw new Error(`not installed: ${absent.join(', ')}`);
  return ` (skipped: not installed: ${absent.join(', ')})`;
}

/** Runs make in the board's folder; what it makes lies in the folder that is answered. */
export function make(...targets: readonly string[]): {
  readonly folder: string;
  readonly said: string;
  remove(): void;
} {
  const folder = mkdtempSync(join(tmpdir(), 'preheat-board-'));
  const said = execFileSync('make', ['-s', '-C', boardFolder, `OUT=${folder}`, ...targets], { encoding: 'utf8' });
  return { folder, said, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** Tells the program what happens, a line each; answers for each line what the board sent. */
export function tell(folder: string, told: readonly string[]): string[] {
  const run = spawnSync(join(folder, 'board'), {
    input: `${told.join('\n')}\n`,
    encoding: 'latin1',
    maxBuffer: 2 ** 28,
  });
  if (run.status !== 0) throw new Error(`the board ended with ${run.status}: ${run.stderr.slice(0, 2000)}`);
  return run.stdout.split('\n').slice(0, told.length);
}

export const hex = (text: string): string => Buffer.from(text, 'latin1').toString('hex');
export const unhex = (digits: string): string => Buffer.from(digits, 'hex').toString('latin1');
